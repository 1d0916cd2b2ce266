#pragma once
#include "plot/area.hpp"
#include "plot/shapes.hpp"

namespace wayfolio::plot::marks {

/// A plot round a circle: where a position and a deviation land on paper.
struct Dial {
    Point centre;
    Scale radius;  ///< shown unit to distance from the centre
    DeviationUnit unit;

    /// 0 degrees to the right, positive counter-clockwise.
    [[nodiscard]] Point at(double degrees, Paper distance) const;
    [[nodiscard]] Point at(double degrees, const Deviation& deviation) const { return at(degrees, radius.map(deviation.in(unit))); }
};

/// A value at a place round the circle.
struct DialPoint {
    double degrees;
    Deviation value;
};

/// The way between points, bent round the circle: deviations stay linear over the angle.
std::vector<Point> dial_path(const Dial& dial, const std::vector<DialPoint>& points);

/// A ring for each tick, zero dark, with the numbers in a column left of the circle at `numbers_right`.
frame::Group rings(const Tools& tools, const Dial& dial, const Ticks& ticks, Paper numbers_right);
/// Ticks and degrees outside the outermost ring, each 30 degrees; quarters are numbered.
frame::Group degrees(const Tools& tools, const Dial& dial);

}  // namespace wayfolio::plot::marks
