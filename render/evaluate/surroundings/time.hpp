#pragma once
#include <optional>
#include <string_view>

namespace wayfolio::evaluate {

/// Seconds from 1970-01-01T00:00Z to a date (its start) or date and time as input::iso_date() reads them; without an offset it
/// counts as UTC. Nothing when it is neither. For differences between times of one document.
std::optional<double> seconds_of(std::string_view text);

}  // namespace wayfolio::evaluate
