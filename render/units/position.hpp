#pragma once
#include "units/deviation.hpp"

#include <array>
#include <optional>
#include <string_view>

namespace wayfolio::units {

/// A unit of places on an axis. Linear places are held in millimetres, rotary places in degrees,
/// so that a position written 303.8 mm or 90 deg is printed as written.
struct PositionUnit {
    Dimension dimension;
    double in_natural;          ///< millimetres or degrees in one unit
    std::string_view symbol, spelling;
    constexpr bool operator==(const PositionUnit& other) const { return spelling == other.spelling; }
};

inline constexpr PositionUnit position_millimetre{Dimension::Length, 1.0, "mm", "mm"};
inline constexpr PositionUnit position_metre{Dimension::Length, 1000.0, "m", "m"};
inline constexpr PositionUnit position_inch{Dimension::Length, 25.4, "in", "in"};
inline constexpr PositionUnit position_degree{Dimension::Angle, 1.0, "°", "deg"};

/// Units a result document may give positions in: mm, in (linear), deg (rotary).
inline constexpr std::array<PositionUnit, 3> position_units{position_millimetre, position_inch, position_degree};
std::optional<PositionUnit> position_unit(std::string_view spelling);

/// A place on an axis. Two places subtract to a Deviation; they do not add.
class Position {
public:
    constexpr Position(double value, const PositionUnit& unit) : natural_(value * unit.in_natural), dimension_(unit.dimension) {}

    [[nodiscard]] constexpr Dimension dimension() const { return dimension_; }
    [[nodiscard]] constexpr double in(const PositionUnit& unit) const {
        assert(unit.dimension == dimension_);
        return natural_ / unit.in_natural;
    }
    constexpr Deviation operator-(const Position& other) const {
        assert(other.dimension_ == dimension_);
        const double step = natural_ - other.natural_;
        return dimension_ == Dimension::Length ? Deviation(millimetre(step)) : Deviation(degree(step));
    }
    constexpr bool operator==(const Position&) const = default;
    constexpr auto operator<=>(const Position& other) const {
        assert(other.dimension_ == dimension_);
        return natural_ <=> other.natural_;
    }

private:
    double natural_;
    Dimension dimension_;
};

}  // namespace wayfolio::units
