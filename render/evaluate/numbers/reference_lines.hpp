#pragma once
#include "document/document.hpp"
#include "evaluate/numbers/least_squares.hpp"

#include <span>

/// Reference straight lines of a profile, in plain numbers: x in one unit of position, rising and distinct; y in one unit of
/// deviation. Deviations are taken along y, not at right angles to the line: below 1 mrad of slope they differ by less than 5e-7
/// of themselves.
namespace wayfolio::evaluate {

/// Largest and smallest deviation from a line, with their places in the data.
struct Extremes {
    double highest = 0, lowest = 0;
    std::size_t highest_at = 0, lowest_at = 0;
    [[nodiscard]] double range() const { return highest - lowest; }
};

/// Through the first and the last point. ISO 230-1:2012 3.4.15 [clause from memory]. Needs two points.
Line end_point_line(std::span<const double> x, std::span<const double> y);

/// The mean of the two parallel lines of least separation that enclose the points: ISO 230-1:2012 3.4.13 [clause from memory].
/// Exact, without iteration: the separation is a convex, piecewise linear function of the slope whose corners are the edges of the
/// convex hull.
Line minimum_zone_line(std::span<const double> x, std::span<const double> y);

/// The same for points that stand above one another: `low` and `high` are the ends at each place, and no other line has a smaller
/// range of all of them. Where the two contacts of the strip stand at one place a whole interval of slopes has the least
/// separation: of these the one nearest to the slope of `near`.
Line minimum_zone_line(const Line& near, std::span<const double> x, std::span<const double> low, std::span<const double> high);

Line reference_line(document::ReferenceLine kind, std::span<const double> x, std::span<const double> y);

/// Extremes of y about a line; the first of equal ones counts. Needs one point.
Extremes extremes_about(const Line& line, std::span<const double> x, std::span<const double> y);

}  // namespace wayfolio::evaluate
