#pragma once
#include "gather/mapping/mapping.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::gather {

/// A time as a source writes it, by ISO 8601; nothing where it is none.
std::optional<std::string> time_in(std::string_view text, const TimeSource& source);

/// The time that a sheet holds as a number: days since 1899-12-30 by the clock that it was written at (ISO/IEC 29500-1 18.17.4, the 1900
/// date system, from memory), to the second.
std::string time_of_serial(double days, const TimeSource& source);

/// "DD.MM.YYYY hh:mm:ss", or "a time of ISO 8601": what is expected of a cell.
std::string time_words(const TimeSource& source);

}  // namespace wayfolio::gather
