#pragma once
#include "units/position.hpp"

#include <optional>

namespace wayfolio::compare {

/// Whether two values are one, but for the rounding of a conversion between units: they differ by less than a ten-millionth of the
/// larger or than 1e-6 µm (µrad). Common practice, no source. A value and none are not the same, nor are a length and an angle.
bool same_value(const std::optional<units::Deviation>& a, const std::optional<units::Deviation>& b);

/// Whether two places are one target: within 0.1 µm (µrad), which is more than six decimals of an inch or four of a millimetre lose
/// and less than any axis can be told to go. Common practice, no source.
bool same_place(const units::Position& a, const units::Position& b);

}  // namespace wayfolio::compare
