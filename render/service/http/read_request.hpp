#pragma once
#include "service/answers/problem.hpp"
#include "service/http/conversation.hpp"

#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>

#include <optional>

namespace wayfolio::service {

/// A request as it came, or what is wrong with it. Where the client went away there is neither.
struct Received {
    std::optional<Request> request;
    std::optional<Answer> refusal;  ///< what of the request was not read stays unread: the conversation ends with this answer
    std::string route, request_id;
    bool keep_alive = false, head_only = false;
};

/// Reads the next request within the limits: head first, which is judged (form, route, token) before any of the body is taken.
/// @param held grows with the body
boost::asio::awaitable<Received> read_request(Stream& stream, boost::beast::flat_buffer& buffer, Service& service, HeldBytes& held);

}  // namespace wayfolio::service
