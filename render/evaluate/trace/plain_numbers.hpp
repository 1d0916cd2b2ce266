#pragma once
#include "document/document.hpp"

/// Places of a trace as plain numbers: mm, or degrees of a rotary axis.
namespace wayfolio::evaluate {

inline const units::PositionUnit& plain_unit_of_places(units::Dimension dimension) {
    return dimension == units::Dimension::Length ? units::position_millimetre : units::position_degree;
}
inline double plain_place(const units::Position& position) { return position.in(plain_unit_of_places(position.dimension())); }

}  // namespace wayfolio::evaluate
