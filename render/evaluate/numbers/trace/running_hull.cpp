#include "evaluate/numbers/trace/running_hull.hpp"

#include <algorithm>
#include <cmath>
#include <span>
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

/// What some points reach that came one after the other.
struct Reach {
    double low_x = HUGE_VAL, high_x = -HUGE_VAL, lowest = HUGE_VAL, highest = -HUGE_VAL;

    explicit Reach(std::span<const TracePoint> points) {
        for (const TracePoint& point : points) {
            low_x = std::min(low_x, point.x);
            high_x = std::max(high_x, point.x);
            lowest = std::min(lowest, point.y);
            highest = std::max(highest, point.y);
        }
    }
    [[nodiscard]] bool lies_between(const Reach& one, const Reach& other) const {
        return (one.high_x <= low_x && high_x <= other.low_x) || (other.high_x <= low_x && high_x <= one.low_x);
    }
};

/// Appends those of the points that may be corners. Of samples along the way, which come close, few can: between the highest of some before
/// and the highest of some behind whatever is lower than both lies below the hull's upper side, and so do the lowest for the lower side.
/// Points that come in any other order are all appended.
void append_outermost(Points& to, std::span<const TracePoint> points) {
    constexpr std::size_t at_a_time = 64;  // by choice: of even noise a twentieth is left
    std::vector<Reach> reaches;
    reaches.reserve(points.size() / at_a_time + 1);
    const auto some = [&](std::size_t number) {
        return points.subspan(number * at_a_time, std::min(at_a_time, points.size() - number * at_a_time));
    };
    for (std::size_t number = 0; number * at_a_time < points.size(); ++number) reaches.emplace_back(some(number));
    for (std::size_t number = 0; number < reaches.size(); ++number) {
        const bool inner =
            number > 0 && number + 1 < reaches.size() && reaches[number].lies_between(reaches[number - 1], reaches[number + 1]);
        const double top = inner ? std::min(reaches[number - 1].highest, reaches[number + 1].highest) : -HUGE_VAL,
                     bottom = inner ? std::max(reaches[number - 1].lowest, reaches[number + 1].lowest) : HUGE_VAL;
        for (const TracePoint& point : some(number))
            if (point.y >= top || point.y <= bottom) to.push_back(point);
    }
}

/// An object, not a function: sorting calls it in place.
constexpr auto before = [](const TracePoint& a, const TracePoint& b) {
    return std::tie(a.x, a.y, a.sample) < std::tie(b.x, b.y, b.sample);
};

}  // namespace

RunningHull::Sides RunningHull::sides() const {
    const auto corners_end = waiting_.begin() + static_cast<std::ptrdiff_t>(corners_);
    Points sorted(waiting_.begin(), corners_end);
    append_outermost(sorted, {corners_end, waiting_.begin() + static_cast<std::ptrdiff_t>(held_)});
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

RunningHull::Box::Box(const Side& lower, const Side& upper) {
    const TracePoint &lower_from = lower.corners[lower.at], &lower_to = lower.corners[lower.at + 1];
    const TracePoint &upper_from = upper.corners[upper.at], &upper_to = upper.corners[upper.at + 1];
    low_x = std::max(lower_from.x, upper_from.x);
    high_x = std::min(lower_to.x, upper_to.x);
    low_y = std::max(lower_from.y, lower_to.y);
    high_y = std::min(upper_from.y, upper_to.y);
}

void RunningHull::fold() {
    inner_ = {};
    Sides found = sides();
    if (found.lower.size() + found.upper.size() > most_corners) thin(found);
    waiting_ = united(found);
    corners_ = held_ = waiting_.size();
    waiting_.resize(2 * corners_ + most_waiting);
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

void RunningHull::clear() {
    waiting_.resize(most_waiting);
    lower_ = upper_ = {};
    inner_ = {};
    corners_ = held_ = 0;
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
