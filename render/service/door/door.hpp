#pragma once
#include "service/tls_files.hpp"
#include "service/limits.hpp"

#include <optional>
#include <string>

/// TLS is taken off at the door, by a process of its own: only that one ever holds the private key, and nothing that a client says is read
/// there; it only passes bytes on.
namespace wayfolio::service {

/// Takes connections of TLS 1.2 and 1.3 from the listening socket of a TCP port until the other end of the returned socket is closed; then
/// ends those that are open as they end themselves. To be called on the only thread of the process; it takes the listening socket over.
/// @returns where connections come in: see arrived_at()
/// @throws CannotServe with what is wrong with certificate or key
int open_door(int listening, const TlsFiles& files, const Limits& limits);

/// A connection that came in: its bytes without TLS, and the client's address.
struct Arrived {
    int socket;
    std::string client;
};

/// The next connection, without waiting; nothing where none is there. @throws std::system_error where the door has ended
std::optional<Arrived> arrived_at(int door);

}  // namespace wayfolio::service
