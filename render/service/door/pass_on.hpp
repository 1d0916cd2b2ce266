#pragma once
#include <cstddef>

namespace wayfolio::service {

/// The work of the door, the function `wayfolio_pass_on` of the module that knows TLS: accepts, hands one end of a pair of sockets with the
/// client's address to `control`, and passes bytes between the other end and the client's TLS; until `control` is closed and the last
/// connection has ended. Speaks C (input/module_function.hpp).
/// @param certificate,key files in PEM, as TlsFiles has them
/// @param patience_seconds how long a client may take for its handshake
/// @param opened called with `control` once certificate and key are in order
/// @returns 0, or 1 and why it could not begin in `fault` (ended by NUL)
using PassOn = int(int control, int listening, const char* certificate, const char* key, int patience_seconds, void (*opened)(int control),
                   char* fault, std::size_t fault_size);

}  // namespace wayfolio::service
