#pragma once
#include "document/document.hpp"
#include "evaluate/series/targets.hpp"

/// Places and deviations of a trace as plain numbers: mm, or degrees of a rotary axis; the base unit of the deviations.
namespace wayfolio::evaluate {

inline const units::PositionUnit& plain_unit_of_places(units::Dimension dimension) {
    return dimension == units::Dimension::Length ? units::position_millimetre : units::position_degree;
}
/// Each with a unit that is known when it is compiled: millions of divisions by 1 are saved.
inline double plain_place(const units::Position& position) {
    return position.dimension() == units::Dimension::Length ? position.in(units::position_millimetre) : position.in(units::position_degree);
}
inline double plain_value(const units::Deviation& value) {
    return value.dimension() == units::Dimension::Length ? value.in(units::micrometre) : value.in(units::microradian);
}
inline units::Position plain_position(const document::Series& series, double x) {
    return {x, plain_unit_of_places(series.position_unit.dimension)};
}
inline units::Deviation plain_deviation(const document::Series& series, double value) {
    return {value, base_unit(series.unit.dimension)};
}

}  // namespace wayfolio::evaluate
