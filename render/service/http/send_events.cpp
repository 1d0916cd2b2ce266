#include "service/http/send_events.hpp"

#include "service/awaiting/awaiting.hpp"
#include "service/batches/events.hpp"

#include <fmt/format.h>
#include <boost/asio/experimental/awaitable_operators.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/http/chunk_encode.hpp>
#include <boost/beast/http/write.hpp>

#include <sys/socket.h>

namespace wayfolio::service {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;

constexpr std::chrono::seconds silence{15};  // by choice: proxies close what says nothing for a minute

asio::awaitable<bool> send_chunk(Stream& stream, std::string text, const Limits& limits) {
    stream.expires_after(limits.head_time + std::chrono::seconds(text.size() / limits.least_body_rate));
    const auto [error, count] = co_await asio::async_write(stream, http::make_chunk(asio::buffer(text)), as_tuple);
    stream.expires_never();
    co_return !error;
}

asio::awaitable<bool> send_head(Stream& stream, EventsHead head, const Limits& limits) {
    stream.expires_after(limits.head_time);
    http::response_serializer<http::empty_body> serializer(head);
    const auto [error, count] = co_await http::async_write_header(stream, serializer, as_tuple);
    co_return !error;
}

}  // namespace

asio::awaitable<void> client_gone(Stream& stream) {
    auto& socket = stream.socket();
    const auto [error] = co_await socket.async_wait(asio::socket_base::wait_read, as_tuple);
    if (error) co_return;
    char next = 0;
    if (::recv(socket.native_handle(), &next, 1, MSG_PEEK | MSG_DONTWAIT) > 0) {
        asio::steady_timer never(socket.get_executor(), asio::steady_timer::time_point::max());
        co_await never.async_wait(as_tuple);
    }
}

asio::awaitable<std::size_t> send_events(Stream& stream, Service& service, Request request, EventsHead head, Answer first) {
    using namespace asio::experimental::awaitable_operators;
    const Limits& limits = service.settings.limits;
    std::size_t sent = 0;
    if (!co_await send_head(stream, std::move(head), limits)) co_return sent;
    std::string text = std::move(first.body);
    for (;;) {
        const std::uint64_t seen = service.batches->changes();
        sent += text.size();
        if (const auto last = last_number(text)) request.query = fmt::format("after={}", *last);
        if (!co_await send_chunk(stream, text, limits)) co_return sent;
        if (is_last(text) || service.closing) break;
        const auto woken = co_await (service.batches->news(seen) || client_gone(stream) ||
                                     passed(std::chrono::steady_clock::now() + silence));
        if (woken.index() == 1) co_return sent;
        const Answer next = co_await service.batches->answer(request);
        constexpr unsigned fine = 200, busy = 429;
        if (next.status != fine && next.status != busy) break;  // the batch was forgotten
        text = next.status == fine ? next.body : ":\n\n";
    }
    [[maybe_unused]] const auto [error, count] = co_await asio::async_write(stream, http::make_chunk_last(), as_tuple);
    co_return sent;
}

}  // namespace wayfolio::service
