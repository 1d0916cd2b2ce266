#include "service/http/read_request.hpp"

#include "input/digest.hpp"
#include "service/awaiting/awaiting.hpp"
#include "service/page/page_files.hpp"

#include <fmt/format.h>
#include <boost/asio/buffer.hpp>
#include <boost/asio/ip/address.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/http/error.hpp>
#include <boost/beast/http/read.hpp>

#include <algorithm>

namespace wayfolio::service {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using Parser = http::request_parser<http::string_body>;

std::string text(beast::string_view view) { return {view.data(), view.size()}; }

/// What a failed reading is answered with; nothing where the client went away, or never said a word.
std::optional<Answer> answer_to_failure(const beast::error_code& error, bool something_came) {
    if (error == http::error::header_limit || error == http::error::buffer_overflow) return problem(problems::head_too_large);
    if (error == http::error::body_limit) return problem(problems::too_large);
    if (error == asio::error::no_buffer_space) return problem(problems::busy);
    if (error == asio::error::timed_out) return something_came ? std::optional(problem(problems::slow)) : std::nullopt;
    if (error == http::error::end_of_stream || error == http::error::partial_message) return std::nullopt;
    if (error.category() == http::make_error_code(http::error::bad_version).category())
        return problem(problems::malformed, error.message());
    return std::nullopt;
}

bool is_request_id(std::string_view id) {
    constexpr std::size_t longest = 64;
    return !id.empty() && id.size() <= longest && std::ranges::all_of(id, [](char c) {
        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' || c == '_' || c == '.';
    });
}

/// Compared by digests, so that the time it takes says nothing of how much of a wrong token is right.
bool holds_token(std::string_view authorization, const std::string& token) {
    constexpr std::string_view scheme = "bearer ";
    if (authorization.size() < scheme.size()) return false;
    const bool bearer = std::ranges::equal(authorization.substr(0, scheme.size()), scheme,
                                           [](char a, char b) { return (a >= 'A' && a <= 'Z' ? a - 'A' + 'a' : a) == b; });
    return bearer && input::sha256_hex(std::string(authorization.substr(scheme.size()))) == input::sha256_hex(token);
}

/// Two readings of where a message ends are how one request is smuggled inside another (RFC 9112, 11.2).
std::optional<Answer> fault_of_form(const Parser::value_type& head) {
    if (head.version() != 11 && head.version() != 10) return problem(problems::malformed, "HTTP/1.1 or HTTP/1.0 is spoken here");
    const auto codings = head.count(http::field::transfer_encoding);
    if (codings > 0 && head.count(http::field::content_length) > 0)
        return problem(problems::malformed, "Content-Length and Transfer-Encoding at once");
    if (codings > 0 && (head.version() == 10 || codings > 1 || !beast::iequals(head[http::field::transfer_encoding], "chunked")))
        return problem(problems::malformed, "of all transfer codings chunked is known here, alone and in HTTP/1.1");
    if (head.version() == 11 && head.count(http::field::host) != 1) return problem(problems::malformed, "HTTP/1.1 needs one Host");
    if (const auto coding = head[http::field::content_encoding]; !coding.empty() && !beast::iequals(coding, "identity"))
        return problem(problems::wrong_type, "a body is taken as it is, not packed (Content-Encoding)");
    if (!head.target().starts_with('/')) return problem(problems::malformed, "the target has to begin with a slash");
    return std::nullopt;
}

/// A host's name without its port.
std::string_view name_of_host(std::string_view host) {
    const std::size_t port = host.rfind(':');
    return port == std::string_view::npos || host.find(']', port) != std::string_view::npos ? host : host.substr(0, port);
}

bool is_address(std::string_view name) {
    if (name.starts_with('[') && name.ends_with(']')) name = name.substr(1, name.size() - 2);
    beast::error_code none;
    asio::ip::make_address(std::string(name), none);
    return !none;
}

/// A page of another site may send what its visitor's browser reaches. Its own name stands in Origin; and where it has bent its name to
/// this machine's address, in Host: without a token that has to be an address, or localhost. (On a Unix socket no browser speaks.)
std::optional<Answer> fault_of_origin(const Parser::value_type& head, const Settings& settings, bool by_network) {
    if (!by_network) return std::nullopt;
    const std::string host = text(head[http::field::host]), origin = text(head[http::field::origin]);
    if (!origin.empty() && origin != "http://" + host && origin != "https://" + host)
        return problem(problems::foreign, "Origin and Host are not the same");
    const std::string_view name = name_of_host(host);
    if (settings.token.empty() && !name.empty() && name != "localhost" && !is_address(name))
        return problem(problems::foreign, "without a token the service is asked by its address, or as localhost");
    return std::nullopt;
}

/// The route's name in the log; what the server itself answers has one, too. @throws Refused
std::string route_named(const Request& request) {
    if (request.path == "/healthz" || request.path == "/metrics" || page_file(request.path)) {
        if (request.method != "GET") throw Refused(problems::wrong_method, "this path takes GET, HEAD");
        return request.path;
    }
    return std::string(route_of(request.method, request.path).path);
}

Request request_of(const Parser::value_type& head) {
    const std::string target = text(head.target());
    const std::size_t mark = std::min(target.find('?'), target.size());
    Request request{.method = head.method() == http::verb::head ? "GET" : text(head.method_string()),
                    .path = target.substr(0, mark),
                    .query = target.substr(std::min(target.size(), mark + 1)),
                    .content_type = text(head[http::field::content_type]),
                    .if_none_match = text(head[http::field::if_none_match]),
                    .body = {},
                    .key = text(head["Idempotency-Key"])};
    // A reader of events that lost its connection says so where it goes on (HTML, 9.2.4).
    if (const std::string last = text(head["Last-Event-ID"]); !last.empty() && request.path.ends_with("/events"))
        request.query = last.find_first_not_of("0123456789") == std::string::npos ? "after=" + last : request.query;
    return request;
}

std::optional<Answer> fault_of_head(const Parser::value_type& head, const Service& service, Received& received) {
    if (auto fault = fault_of_form(head)) return fault;
    received.request = request_of(head);
    if (auto fault = fault_of_origin(head, service.settings, service.by_network)) return fault;
    try {
        received.route = route_named(*received.request);
    } catch (const Refused& refused) { return problem(refused.kind(), refused.what()); }
    // Whether the service is alive may be asked by whoever reaches it; the page asks for the token itself.
    const bool open = service.settings.token.empty() || received.route == "/healthz" || page_file(received.route);
    if (!open && !holds_token(text(head[http::field::authorization]), service.settings.token)) return problem(problems::no_token);
    return std::nullopt;
}

asio::awaitable<beast::error_code> read_head(Stream& stream, beast::flat_buffer& buffer, Parser& parser) {
    const auto [error, count] = co_await http::async_read_header(stream, buffer, parser, as_tuple);
    co_return error;
}

asio::awaitable<beast::error_code> read_piece(Stream& stream, beast::flat_buffer& buffer, Parser& parser) {
    const auto [error, count] = co_await http::async_read_some(stream, buffer, parser, as_tuple);
    co_return error;
}

/// The body, at no less than the least rate.
/// @returns no_buffer_space where all bodies together are as large as they may be
asio::awaitable<beast::error_code> read_body(Stream& stream, beast::flat_buffer& buffer, Parser& parser, const Limits& limits,
                                             HeldBytes& held) {
    const auto began = std::chrono::steady_clock::now();
    while (!parser.is_done()) {
        const std::size_t got = parser.get().body().size();
        if (!held.grow_to(got)) co_return asio::error::no_buffer_space;
        const Deadline deadline = began + limits.head_time + std::chrono::seconds(got / limits.least_body_rate);
        const beast::error_code error = co_await within(deadline, read_piece(stream, buffer, parser));
        if (error) co_return error;
    }
    co_return beast::error_code();
}

}  // namespace

asio::awaitable<Received> read_request(Stream& stream, beast::flat_buffer& buffer, Service& service, HeldBytes& held) {
    const Limits& limits = service.settings.limits;
    Received received;
    Parser parser;
    parser.header_limit(static_cast<std::uint32_t>(limits.head_bytes));
    parser.body_limit(limits.body_bytes);
    service.idle.insert(&stream);
    const beast::error_code error = co_await within(std::chrono::steady_clock::now() + limits.head_time, read_head(stream, buffer, parser));
    service.idle.erase(&stream);
    if (error) {
        received.refusal = answer_to_failure(error, buffer.size() > 0 || parser.got_some());
        co_return received;
    }
    const auto& head = parser.get();
    received.request_id = fmt::format("r{}", ++service.requests);
    if (const std::string id = text(head["X-Request-Id"]); is_request_id(id)) received.request_id = id;
    received.head_only = head.method() == http::verb::head;
    received.refusal = fault_of_head(head, service, received);
    if (received.refusal) co_return received;
    if (beast::iequals(head[http::field::expect], "100-continue")) {
        constexpr std::string_view go_on = "HTTP/1.1 100 Continue\r\n\r\n";
        co_await asio::async_write(stream, asio::buffer(go_on), as_tuple);
    }
    if (const beast::error_code failed = co_await read_body(stream, buffer, parser, limits, held)) {
        received.request.reset();
        received.refusal = answer_to_failure(failed, true);
        co_return received;
    }
    received.keep_alive = parser.get().keep_alive();
    received.request->body = std::move(parser.get().body());
    co_return received;
}

}  // namespace wayfolio::service
