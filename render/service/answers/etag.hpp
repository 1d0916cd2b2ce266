#pragma once
#include "service/message.hpp"

#include <functional>
#include <string>

namespace wayfolio::service {

/// What `make` gives, under the tag; where the client has it already (If-None-Match, RFC 9110, 13.1.2), it is not made again but told so:
/// the routes only read, so that their POST is answered as a GET would be.
Answer tagged(const Request& request, const std::string& tag, const std::function<Answer()>& make);

/// An answer that was made, under the digest of its bytes.
Answer tagged(const Request& request, Answer made);

}  // namespace wayfolio::service
