#pragma once
#include "service/http/conversation.hpp"
#include "service/http/read_request.hpp"

#include <boost/beast/http/empty_body.hpp>
#include <boost/beast/http/message.hpp>

namespace wayfolio::service {

using EventsHead = boost::beast::http::response<boost::beast::http::empty_body>;

/// Sends events as they come, in chunks, until nothing comes after them, the client goes away or the service is closed.
/// @param first the answer that they begin with
/// @returns how many bytes of events went
boost::asio::awaitable<std::size_t> send_events(Stream& stream, Service& service, Request request, EventsHead head, Answer first);

/// Ends when the client has gone; not when it only says more.
boost::asio::awaitable<void> client_gone(Stream& stream);

}  // namespace wayfolio::service
