#pragma once
#include "units/position.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace wayfolio::plan {

/// What is to be measured along one axis.
struct Range {
    double from = 0, to = 0;
    units::PositionUnit unit = units::position_millimetre;

    [[nodiscard]] bool rotary() const { return unit.dimension == units::Dimension::Angle; }
    /// In mm or degrees, positive.
    [[nodiscard]] double span() const;
};

/// How many targets ISO 230-2 asks for at least, from memory: linear axes up to 2 000 mm 5 a metre and 5 in all, longer ones a mean
/// interval of 250 mm; rotary axes 3 up to 90 degrees, 5 up to 180, 8 up to 360, then 8 a revolution.
std::size_t least_targets(const Range& range);

/// A random part of at most so much of the interval goes to each target between the ends: no two come closer than 0.4 intervals. By choice.
inline constexpr double random_part = 0.3;

/// Target positions P_i = (i - 1) p + r of ISO 230-2 (from memory), rising: the ends as they are, all others moved by a random part of the
/// interval, so that an error which repeats with the interval cannot hide; rounded to 0.1 mm, 0.01 degrees or 0.001 in. A rotary axis has
/// its principal positions (0, 90, 180, 270 degrees) among them, where it reaches them; a whole turn ends before it begins again.
/// The same seed gives the same positions on every machine.
std::vector<double> target_positions(const Range& range, std::size_t count, std::uint64_t seed);

}  // namespace wayfolio::plan
