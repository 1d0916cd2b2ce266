#pragma once
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/system/error_code.hpp>

/// Trap: GCC 12 destroys some aggregates twice that are made inside the very expression that is awaited or returned from a coroutine
/// (seen here: a struct with strings). They get a name before.
namespace wayfolio::service {

/// What is waited for gives its error beside its result, for errors of the other end are nothing out of the way.
inline constexpr auto as_tuple = boost::asio::as_tuple(boost::asio::use_awaitable);

using Deadline = boost::asio::steady_timer::time_point;

/// Ends at the deadline.
boost::asio::awaitable<void> passed(Deadline deadline);

/// An operation that is called off at the deadline: its error, or timed_out. (A timer of the stream itself would close it, and nothing
/// could be answered any more.)
boost::asio::awaitable<boost::system::error_code> within(Deadline deadline, boost::asio::awaitable<boost::system::error_code> operation);

}  // namespace wayfolio::service
