#include "service/awaiting/awaiting.hpp"

#include <boost/asio/error.hpp>
#include <boost/asio/experimental/awaitable_operators.hpp>
#include <boost/asio/this_coro.hpp>

namespace wayfolio::service {

namespace asio = boost::asio;

asio::awaitable<void> passed(Deadline deadline) {
    asio::steady_timer timer(co_await asio::this_coro::executor, deadline);
    co_await timer.async_wait(as_tuple);
}

asio::awaitable<boost::system::error_code> within(Deadline deadline, asio::awaitable<boost::system::error_code> operation) {
    using namespace asio::experimental::awaitable_operators;
    const auto done = co_await (std::move(operation) || passed(deadline));
    co_return done.index() == 0 ? std::get<0>(done) : boost::system::error_code(asio::error::timed_out);
}

}  // namespace wayfolio::service
