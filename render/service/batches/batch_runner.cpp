#include "service/batches/batch_runner.hpp"

#include "service/awaiting/awaiting.hpp"
#include "service/log/log.hpp"

#include <fmt/format.h>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/experimental/awaitable_operators.hpp>

namespace wayfolio::service {

namespace asio = boost::asio;

BatchRunner::BatchRunner(asio::io_context& context, const Workshop& clerks, const Workshop& drawers)
    : context_(context), limits_(drawers.limits), clerks_(context, clerks), drawers_(context, drawers),
      change_(context, asio::steady_timer::time_point::max()) {}

void BatchRunner::start() {
    for (std::size_t i = 0; i < limits_.workers; ++i) asio::co_spawn(context_, draw_jobs(), asio::detached);
}

void BatchRunner::close() {
    closing_ = true;
    changed();
}

void BatchRunner::changed() {
    ++changes_;
    change_.cancel();
}

asio::awaitable<void> BatchRunner::news(std::uint64_t since) {
    if (changes_ == since) co_await change_.async_wait(as_tuple);
}

asio::awaitable<Answer> BatchRunner::answer(const Request& request) {
    Answer answer = co_await clerks_.answer(request);
    constexpr unsigned refused = 400;
    if (request.method != "GET" && answer.status < refused) changed();
    co_return answer;
}

asio::awaitable<void> BatchRunner::give_up(const std::string& claim, const char* errand, const std::string& reason) {
    Request request;
    request.errand = errand;
    request.path = claim;
    request.body = reason;
    const Answer answer = co_await clerks_.answer(request);
    if (answer.status != errands::done && answer.status != errands::nothing_to_do) {
        log_event("a job of a batch is lost until the service begins again", answer.body);
        asio::steady_timer pause(context_, limits_.retry_after);  // the file cannot be written: not again at once
        co_await pause.async_wait(as_tuple);
    }
    changed();
}

asio::awaitable<void> BatchRunner::draw_one() {
    using namespace asio::experimental::awaitable_operators;
    const std::uint64_t seen = changes_;
    Request request;
    request.errand = errands::draw;
    request.path = fmt::format("{}", ++claims_);
    auto ended = co_await (drawers_.answer(request) || passed(std::chrono::steady_clock::now() + limits_.deadline));
    if (ended.index() == 1) {
        const std::string reason = fmt::format("was not drawn within {} s", limits_.deadline.count());
        co_await give_up(request.path, errands::fail, reason);
        co_return;
    }
    const unsigned status = std::get<0>(ended).status;
    if (status == errands::done) {
        changed();
    } else if (status == errands::nothing_to_do) {
        if (!closing_) co_await news(seen);
    } else {
        const std::string reason = "ended the process that drew it, each time it was tried";
        co_await give_up(request.path, errands::wait_again, reason);
    }
}

asio::awaitable<void> BatchRunner::draw_jobs() {
    while (!closing_) co_await draw_one();
}

}  // namespace wayfolio::service
