#include "evaluate/numbers/reference_lines.hpp"

#include <algorithm>
#include <limits>
#include <vector>

namespace wayfolio::evaluate {

namespace {

struct Point {
    double x, y;
};

/// Twice the signed area of a triangle: positive when the path a, b, c turns left.
double turn(const Point& a, const Point& b, const Point& c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

/// One side of the convex hull of points with rising x (the monotone chain of A. M. Andrew, 1979). `side` +1: lower, -1: upper.
std::vector<Point> hull_side(std::span<const Point> points, double side) {
    std::vector<Point> hull;
    for (const Point& point : points) {
        while (hull.size() >= 2 && side * turn(hull[hull.size() - 2], hull.back(), point) <= 0) hull.pop_back();
        hull.push_back(point);
    }
    return hull;
}

constexpr double endless = std::numeric_limits<double>::infinity();

double slope_between(const Point& a, const Point& b) { return (b.y - a.y) / (b.x - a.x); }

/// Deviations from a first line: hull arithmetic keeps its digits when the profile itself is steep or far from zero.
std::vector<Point> levelled(const Line& line, std::span<const double> x, std::span<const double> y) {
    std::vector<Point> points;
    points.reserve(x.size());
    for (std::size_t i = 0; i < x.size(); ++i) points.push_back({x[i] - line.x0, y[i] - line.at(x[i])});
    return points;
}

}  // namespace

Line end_point_line(std::span<const double> x, std::span<const double> y) {
    return {(y.back() - y.front()) / (x.back() - x.front()), x.front(), y.front()};
}

Line minimum_zone_line(std::span<const double> x, std::span<const double> y) {
    return minimum_zone_line(least_squares_line(x, y), x, y, y);
}

Line minimum_zone_line(const Line& near, std::span<const double> x, std::span<const double> low, std::span<const double> high) {
    const std::vector<Point> lower = hull_side(levelled(near, x, low), +1), upper = hull_side(levelled(near, x, high), -1);
    // A steeply falling strip touches the first low point and the last high one. Turning it upwards, one contact after the other
    // goes along its side of the hull; the separation falls as long as the high contact stands beyond the low one.
    std::size_t bottom = 0, top = upper.size() - 1;
    const auto next_slope = [&] {
        const double along_lower = bottom + 1 < lower.size() ? slope_between(lower[bottom], lower[bottom + 1]) : endless;
        const double along_upper = top > 0 ? slope_between(upper[top - 1], upper[top]) : endless;
        return along_lower <= along_upper ? (++bottom, along_lower) : (--top, along_upper);
    };
    double slope = next_slope();
    while (lower[bottom].x < upper[top].x) slope = next_slope();
    const Point low_contact = lower[bottom], high_contact = upper[top];
    if (low_contact.x == high_contact.x) slope = std::clamp(0.0, slope, std::max(slope, next_slope()));
    const double middle = (low_contact.y - slope * low_contact.x + high_contact.y - slope * high_contact.x) / 2;
    return {near.slope + slope, near.x0, near.y0 + middle};
}

Line reference_line(document::ReferenceLine kind, std::span<const double> x, std::span<const double> y) {
    switch (kind) {
        case document::ReferenceLine::EndPoint:
            return end_point_line(x, y);
        case document::ReferenceLine::MinimumZone:
            return minimum_zone_line(x, y);
        case document::ReferenceLine::LeastSquares:
            break;
    }
    return least_squares_line(x, y);
}

Extremes extremes_about(const Line& line, std::span<const double> x, std::span<const double> y) {
    const double first = y[0] - line.at(x[0]);
    Extremes extremes{first, first, 0, 0};
    for (std::size_t i = 1; i < x.size(); ++i) {
        const double deviation = y[i] - line.at(x[i]);
        if (deviation > extremes.highest) {
            extremes.highest = deviation;
            extremes.highest_at = i;
        }
        if (deviation < extremes.lowest) {
            extremes.lowest = deviation;
            extremes.lowest_at = i;
        }
    }
    return extremes;
}

}  // namespace wayfolio::evaluate
