#pragma once
#include "input/json/object_reader.hpp"
#include "units/position.hpp"

#include <array>

namespace wayfolio::document {

/// The units in which a document may give positions along a linear axis.
inline constexpr std::array<input::Word<units::PositionUnit>, 2> linear_units{{{"mm", units::position_millimetre}, {"in", units::position_inch}}};

/// The same about a rotary axis.
inline constexpr std::array<input::Word<units::PositionUnit>, 1> rotary_units{{{"deg", units::position_degree}}};

}  // namespace wayfolio::document
