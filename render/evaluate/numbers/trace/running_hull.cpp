#include "evaluate/numbers/trace/running_hull.hpp"

#include <algorithm>
#include <tuple>

namespace wayfolio::evaluate {
namespace {

using Points = std::vector<TracePoint>;

/// Twice the signed area of a triangle: positive when the path a, b, c turns left.
double area(const TracePoint& a, const TracePoint& b, const TracePoint& c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

/// One side of the hull (the monotone chain of A. M. Andrew, 1979). `side` +1: lower, -1: upper. Points rise in x, one at each.
Points chain(const Points& points, double side) {
    Points hull;
    for (const TracePoint& point : points) {
        while (hull.size() >= 2 && side * area(hull[hull.size() - 2], hull.back(), point) <= 0) hull.pop_back();
        hull.push_back(point);
    }
    return hull;
}

/// The first or the last of the points at each x.
template <class Keep>
Points one_at_each_x(const Points& sorted, Keep keep) {
    Points kept;
    for (const TracePoint& point : sorted) {
        if (kept.empty() || kept.back().x != point.x) kept.push_back(point);
        else if (keep(point, kept.back())) kept.back() = point;
    }
    return kept;
}

bool before(const TracePoint& a, const TracePoint& b) { return std::tie(a.x, a.y, a.sample) < std::tie(b.x, b.y, b.sample); }

}  // namespace

std::vector<TracePoint> RunningHull::corners() const {
    Points sorted = waiting_;
    std::ranges::sort(sorted, before);
    Points all = chain(one_at_each_x(sorted, [](const TracePoint&, const TracePoint&) { return false; }), +1);
    const Points upper =
        chain(one_at_each_x(sorted, [](const TracePoint& point, const TracePoint& kept) { return point.y > kept.y; }), -1);
    all.insert(all.end(), upper.begin(), upper.end());
    std::ranges::sort(all, before);
    const auto twice = std::ranges::unique(all, [](const TracePoint& a, const TracePoint& b) { return a.x == b.x && a.y == b.y; });
    all.erase(twice.begin(), twice.end());
    return all;
}

}  // namespace wayfolio::evaluate
