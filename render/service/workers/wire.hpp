#pragma once
#include "service/message.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

/// How a request goes to a worker and its answer comes back, on one machine between two processes of one program: each text after its
/// length, the whole after its own.
namespace wayfolio::service {

using WireLength = std::uint64_t;

std::string to_wire(const Request& request);
std::string to_wire(const Answer& answer);

/// What follows the length of the whole. Nothing where the bytes are cut: the process at the other end went wrong.
std::optional<Request> request_from_wire(std::string_view bytes);
std::optional<Answer> answer_from_wire(std::string_view bytes);

}  // namespace wayfolio::service
