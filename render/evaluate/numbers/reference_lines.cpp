#include "evaluate/numbers/reference_lines.hpp"

#include <algorithm>
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

double slope_between(const Point& a, const Point& b) { return (b.y - a.y) / (b.x - a.x); }

/// The hull vertex that a line of this slope touches. Slopes rise along the lower side and fall along the upper one.
const Point& contact(const std::vector<Point>& hull, double slope, double side) {
    std::size_t first = 0, past = hull.size() - 1;
    while (first < past) {
        const std::size_t edge = first + (past - first) / 2;
        if (side * (slope_between(hull[edge], hull[edge + 1]) - slope) < 0)
            first = edge + 1;
        else
            past = edge;
    }
    return hull[first];
}

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
    const Line first = least_squares_line(x, y);
    const std::vector<Point> points = levelled(first, x, y);
    const std::vector<Point> lower = hull_side(points, +1), upper = hull_side(points, -1);
    double least = -1;
    Line best = first;
    const auto consider = [&](double slope) {
        const Point& low = contact(lower, slope, +1);
        const Point& high = contact(upper, slope, -1);
        const double low_at = low.y - slope * low.x, high_at = high.y - slope * high.x;
        if (least >= 0 && high_at - low_at >= least) return;
        least = high_at - low_at;
        best = {first.slope + slope, first.x0, first.y0 + (low_at + high_at) / 2};
    };
    for (const auto& side : {lower, upper})
        for (std::size_t i = 0; i + 1 < side.size(); ++i) consider(slope_between(side[i], side[i + 1]));
    return best;
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
