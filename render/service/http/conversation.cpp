#include "service/http/conversation.hpp"

#include "service/awaiting/awaiting.hpp"
#include "service/http/read_request.hpp"
#include "service/http/send_events.hpp"
#include "service/page/page_files.hpp"

#include <boost/asio/experimental/awaitable_operators.hpp>
#include <boost/beast/http/message.hpp>
#include <boost/beast/http/write.hpp>

namespace wayfolio::service {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using Clock = std::chrono::steady_clock;

asio::awaitable<Answer> answer_by(Service& service, const Request& request) {
    const By by = asked_of(request);
    if (by == By::Clerks && service.batches != nullptr) return service.batches->answer(request);
    if (by == By::Keepers && service.keepers != nullptr) return service.keepers->answer(request);
    return service.pool.answer(request);  // of what is not kept here it says so
}

/// Nothing where the client went away before the answer was there.
asio::awaitable<std::optional<Answer>> answer_in_time(Stream& stream, Service& service, const Request& request) {
    using namespace asio::experimental::awaitable_operators;
    auto done = co_await (answer_by(service, request) || client_gone(stream) || passed(Clock::now() + service.settings.limits.deadline));
    std::optional<Answer> answer;
    if (done.index() == 0) answer = std::get<0>(std::move(done));
    if (done.index() == 2) answer = problem(problems::late);
    co_return answer;
}

Load load_of(const Service& service) {
    Load load{.connections = service.connections};
    const std::initializer_list<const WorkerPool*> pools{&service.pool, service.keepers,
                                                         service.batches != nullptr ? &service.batches->drawing() : nullptr};
    for (const WorkerPool* const pool : pools) {
        if (pool == nullptr) continue;
        load.at_work += pool->at_work();
        load.waiting += pool->waiting();
        load.workers_ended_early += pool->ended_early();
    }
    return load;
}

/// What needs no worker: a refusal, and what the server says of itself.
std::optional<Answer> answer_at_once(const Service& service, const Received& received) {
    if (received.refusal) return received.refusal;
    if (const auto file = page_file(received.route)) return Answer{200, std::string(file->content_type), std::string(file->text), ""};
    if (received.route == "/healthz") return Answer{200, "text/plain", "alive\n", ""};
    if (received.route == "/metrics")
        return Answer{200, "text/plain; version=0.0.4",
                      service.observed.metrics(load_of(service)), ""};
    if (service.closing) return problem(problems::closing);
    return std::nullopt;
}

asio::awaitable<std::optional<Answer>> answer_of(Stream& stream, Service& service, const Received& received) {
    std::optional<Answer> answer = answer_at_once(service, received);
    if (!answer) answer = co_await answer_in_time(stream, service, *received.request);
    co_return answer;
}

// An SVG has its own style and asks for nothing else; the page asks only this service.
constexpr const char *policy_of_answers = "default-src 'none'; style-src 'unsafe-inline'; sandbox",
                     *policy_of_page =
                         "default-src 'none'; script-src 'self'; style-src 'self'; img-src blob:; connect-src 'self'; "
                         "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

std::string allowed_at(const std::string& path) {
    const std::string methods = methods_of(path);
    return methods.empty() ? "GET, HEAD" : methods;  // what the server answers itself is only read
}

template <class Response>
void write_head(Response& response, const Answer& answer, const Received& received, const Limits& limits) {
    if (!received.request_id.empty()) response.set("X-Request-Id", received.request_id);
    response.set("X-Content-Type-Options", "nosniff");
    response.set("Content-Security-Policy", answer.content_type.starts_with("text/html") ? policy_of_page : policy_of_answers);
    response.set("Referrer-Policy", "no-referrer");
    response.set(http::field::cache_control, answer.etag.empty() ? "no-store" : "private, no-cache");
    if (!answer.content_type.empty()) response.set(http::field::content_type, answer.content_type);
    if (!answer.etag.empty()) response.set(http::field::etag, answer.etag);
    if (!answer.location.empty()) response.set(http::field::location, answer.location);
    if (answer.status == 405) response.set(http::field::allow, allowed_at(received.request->path));
    if (answer.status == 401) response.set(http::field::www_authenticate, "Bearer");
    if (answer.status == 429 || answer.status == 503) response.set(http::field::retry_after, std::to_string(limits.retry_after.count()));
}

http::response<http::string_body> response_of(const Answer& answer, const Received& received, const Limits& limits, bool last) {
    http::response<http::string_body> response{static_cast<http::status>(answer.status), 11};
    write_head(response, answer, received, limits);
    response.keep_alive(!last);
    if (!received.head_only) response.body() = answer.body;
    if (answer.status != 304 && answer.status != 204) response.content_length(answer.body.size());
    return response;
}

EventsHead events_head(const Answer& answer, const Received& received, const Limits& limits) {
    EventsHead head{http::status::ok, 11};
    write_head(head, answer, received, limits);
    head.keep_alive(false);
    head.chunked(true);
    return head;
}

asio::awaitable<beast::error_code> send(Stream& stream, http::response<http::string_body> response, const Limits& limits) {
    stream.expires_after(limits.head_time + std::chrono::seconds(response.body().size() / limits.least_body_rate));
    http::response_serializer<http::string_body> serializer(response);
    // Of a HEAD only the head goes, whatever its Content-Length says.
    const auto [error, count] = co_await http::async_write(stream, serializer, as_tuple);
    co_return error;
}

/// Lets the client read the answer to a request that was not read to its end: closing at once would take it away again.
asio::awaitable<void> linger(Stream& stream, beast::flat_buffer& buffer) {
    constexpr std::chrono::seconds longest{2};
    constexpr std::size_t most = std::size_t{1} << 20, piece = std::size_t{16} << 10;
    beast::error_code none;
    stream.socket().shutdown(asio::socket_base::shutdown_send, none);
    stream.expires_after(longest);
    buffer.clear();
    for (std::size_t read = 0; read < most;) {
        const auto [error, count] = co_await stream.async_read_some(buffer.prepare(piece), as_tuple);
        if (error) co_return;
        read += count;
    }
}

/// @returns whether the conversation goes on
asio::awaitable<bool> one_exchange(Stream& stream, beast::flat_buffer& buffer, Service& service, bool last) {
    HeldBytes held(service);
    const Received received = co_await read_request(stream, buffer, service, held);
    if (!received.request && !received.refusal) co_return false;
    const auto began = Clock::now();
    const std::optional<Answer> answer = co_await answer_of(stream, service, received);
    constexpr std::size_t longest_method = 16;  // in the log
    Exchange exchange{.request_id = received.request_id,
                      .method = received.request ? received.request->method.substr(0, longest_method) : "",
                      .route = received.route,
                      .bytes_in = received.request ? received.request->body.size() : 0};
    constexpr unsigned client_closed = 499;  // common practice of logs, no standard
    exchange.status = answer ? answer->status : client_closed;
    const bool events = answer && answer->status == 200 && answer->content_type == "text/event-stream" && !received.head_only;
    last = last || !received.keep_alive || received.refusal || service.closing || events;
    if (events) {
        EventsHead head = events_head(*answer, received, service.settings.limits);
        exchange.bytes_out = co_await send_events(stream, service, *received.request, std::move(head), *answer);
    } else if (answer) {
        exchange.bytes_out = answer->body.size();
        auto response = response_of(*answer, received, service.settings.limits, last);
        const beast::error_code failed = co_await send(stream, std::move(response), service.settings.limits);
        last = last || failed;
    }
    exchange.took = std::chrono::duration_cast<std::chrono::microseconds>(Clock::now() - began);
    service.observed.note(exchange);
    if (answer && received.refusal) co_await linger(stream, buffer);
    co_return answer && !last;
}

/// Counts a connection for as long as it is open.
class Counted {
public:
    Counted(Service& service, std::string client) : service_(service), client_(std::move(client)) {
        ++service_.connections;
        ++service_.clients[client_];
    }
    ~Counted() {
        --service_.connections;
        if (--service_.clients[client_] == 0) service_.clients.erase(client_);
    }
    Counted(const Counted&) = delete;
    Counted& operator=(const Counted&) = delete;

private:
    Service& service_;
    std::string client_;
};

}  // namespace

/// What may be read and not yet taken: beyond it, also what stands around the chunks of a body is too large.
constexpr std::size_t most_ahead = std::size_t{64} << 10;

asio::awaitable<void> converse(Stream stream, Service& service, std::string client) {
    const Limits& limits = service.settings.limits;
    const bool too_many =
        service.connections >= limits.connections || (!client.empty() && service.clients[client] >= limits.connections_of_one_client);
    const Counted counted(service, client);
    beast::flat_buffer buffer(limits.head_bytes + most_ahead);
    if (too_many) {
        const Received unread;
        auto response = response_of(problem(problems::too_many_connections), unread, limits, /*last=*/true);
        co_await send(stream, std::move(response), limits);
        co_await linger(stream, buffer);
        co_return;
    }
    for (std::size_t count = 1; !service.closing; ++count)
        if (!co_await one_exchange(stream, buffer, service, count == limits.requests_of_one_connection)) break;
    beast::error_code none;
    stream.socket().shutdown(asio::socket_base::shutdown_both, none);
}

}  // namespace wayfolio::service
