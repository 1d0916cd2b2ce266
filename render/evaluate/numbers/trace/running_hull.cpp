#include "evaluate/numbers/trace/running_hull.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace wayfolio::evaluate {
namespace {

using Points = std::vector<TracePoint>;

/// Twice the signed area of a triangle: positive when the path a, b, c turns left.
double area(const TracePoint& a, const TracePoint& b, const TracePoint& c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

/// One side of the hull (the monotone chain of A. M. Andrew, 1979). `side` +1: lower, -1: upper. Of the points at one x the outermost
/// counts, of several of them the first.
Points chain(const Points& sorted, double side) {
    Points hull(sorted.size());
    std::size_t count = 0;
    for (std::size_t i = 0; i < sorted.size();) {
        const TracePoint* point = &sorted[i];
        for (++i; i < sorted.size() && sorted[i].x == point->x; ++i)
            if (side * sorted[i].y < side * point->y) point = &sorted[i];
        while (count >= 2 && side * area(hull[count - 2], hull[count - 1], *point) <= 0) --count;
        hull[count++] = *point;
    }
    hull.resize(count);
    return hull;
}

/// An object, not a function: sorting calls it in place.
constexpr auto before = [](const TracePoint& a, const TracePoint& b) {
    return std::tie(a.x, a.y, a.sample) < std::tie(b.x, b.y, b.sample);
};

}  // namespace

RunningHull::Sides RunningHull::sides() const {
    Points sorted = waiting_;
    const auto added = sorted.begin() + static_cast<std::ptrdiff_t>(corners_);
    // Corners are in order, and so is what was added on the way out: an axis beyond all that it has passed.
    if (!std::ranges::is_sorted(added, sorted.end(), before)) std::ranges::sort(added, sorted.end(), before);
    std::ranges::inplace_merge(sorted, added, before);
    return {chain(sorted, +1), chain(sorted, -1)};
}

/// Points come along the way, so that the stretch of the side is mostly the one of the point before, or its neighbour.
bool RunningHull::Side::lies_within(const TracePoint& point, double side) {
    if (corners.size() < 2 || point.x <= corners.front().x || point.x >= corners.back().x) return false;
    at = std::min(at, corners.size() - 2);
    while (point.x > corners[at + 1].x) ++at;
    while (point.x < corners[at].x) --at;
    return side * area(corners[at], corners[at + 1], point) > 0;
}

void RunningHull::fold() {
    Sides found = sides();
    if (found.lower.size() + found.upper.size() > most_corners) thin(found);
    waiting_ = united(found);
    corners_ = waiting_.size();
    lower_.corners = std::move(found.lower);
    upper_.corners = std::move(found.upper);
}

/// Takes corners out that stand out from the line between their neighbours by next to nothing, never two beside each other. Of n corners
/// few can stand out by more: their turns add up to one turn, and the ways between them to the whole way, so that at most about
/// sqrt(pi / (2 e)) stand out by the share e of the range.
void RunningHull::thin(Sides& sides) {
    const TracePoint &first = sides.lower.front(), &last = sides.lower.back();
    double range = 0;
    for (const Points* side : {&sides.lower, &sides.upper})
        for (const TracePoint& point : *side) range = std::max(range, std::abs(area(first, last, point)) / (last.x - first.x));
    for (Points* side : {&sides.lower, &sides.upper}) {
        Points kept{side->front()};
        for (std::size_t i = 1; i + 1 < side->size(); ++i) {
            const TracePoint &before_it = (*side)[i - 1], &corner = (*side)[i], &behind = (*side)[i + 1];
            const bool beside_kept = kept.back().sample == before_it.sample;
            const double out = std::abs(area(before_it, behind, corner)) / (behind.x - before_it.x);
            if (!beside_kept || out > next_to_nothing * range) kept.push_back(corner);
        }
        if (side->size() > 1) kept.push_back(side->back());
        *side = std::move(kept);
    }
}

std::vector<TracePoint> RunningHull::corners() const { return united(sides()); }

std::vector<TracePoint> RunningHull::united(const Sides& sides) {
    Points all = sides.lower;
    all.insert(all.end(), sides.upper.begin(), sides.upper.end());
    std::ranges::sort(all, before);
    const auto twice = std::ranges::unique(all, [](const TracePoint& a, const TracePoint& b) { return a.x == b.x && a.y == b.y; });
    all.erase(twice.begin(), twice.end());
    return all;
}

}  // namespace wayfolio::evaluate
