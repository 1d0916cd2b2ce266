#pragma once
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/use_awaitable.hpp>

namespace wayfolio::service {

/// What is waited for gives its error beside its result, for errors of the other end are nothing out of the way.
inline constexpr auto as_tuple = boost::asio::as_tuple(boost::asio::use_awaitable);

}  // namespace wayfolio::service
