#pragma once
#include "evaluate/written/json_text.hpp"

#include <string_view>

/// What the service tells on standard error, one line of JSON each, with the time.
namespace wayfolio::service {

void log_line(const evaluate::Json& members);

/// Of the service itself, not of a request.
void log_event(std::string_view event, std::string_view detail);

}  // namespace wayfolio::service
