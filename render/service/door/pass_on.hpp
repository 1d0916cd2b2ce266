#pragma once
#include "service/door/door.hpp"

#include <functional>

namespace wayfolio::service {

/// The work of the door: accepts, hands one end of a pair of sockets with the client's address to `control`, and passes bytes between the
/// other end and the client's TLS; until `control` is closed and the last connection has ended.
/// @param opened called once certificate and key are in order
/// @returns why it could not begin; "" where it did
std::string pass_on(int control, int listening, const TlsFiles& files, const Limits& limits, const std::function<void()>& opened);

}  // namespace wayfolio::service
