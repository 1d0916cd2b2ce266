#include "plot/fine_line.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::plot {
namespace {

constexpr double dots_per_point = 600.0 / 72;

double column_of(const frame::Point& point) { return std::floor(point.x.in(units::point) * dots_per_point); }

/// Points that follow each other in one column, from `begin` to before `end`.
struct Stay {
    double column;
    std::size_t begin, end, least, greatest;

    [[nodiscard]] std::size_t early() const { return std::min(least, greatest); }
    [[nodiscard]] std::size_t late() const { return std::max(least, greatest); }
};

std::vector<Stay> stays_of(std::span<const frame::Point> points) {
    std::vector<Stay> stays;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double column = column_of(points[i]);
        if (stays.empty() || stays.back().column != column) stays.push_back({column, i, i, i, i});
        Stay& stay = stays.back();
        stay.end = i + 1;
        if (points[i].y < points[stay.least].y) stay.least = i;
        if (points[i].y >= points[stay.greatest].y) stay.greatest = i;
    }
    return stays;
}

/// Whether the line from `from` to `to` goes over from one column to its neighbour within what both cover anyway.
bool crosses_within(std::span<const frame::Point> points, const Stay& before, const Stay& after, std::size_t from, std::size_t to) {
    const frame::Point &a = points[from], &b = points[to];
    const double edge = std::max(before.column, after.column) / dots_per_point;
    const units::Paper y = a.y + (b.y - a.y) * ((edge - a.x.in(units::point)) / (b.x - a.x).in(units::point));
    const auto covers = [&](const Stay& stay) { return y >= points[stay.least].y && y <= points[stay.greatest].y; };
    return covers(before) && covers(after);
}

struct Ends {
    bool last, first;
};

/// Which of the last point of a stay and the first of the next must be kept. Where the line goes over within both columns, as it does by
/// all points, any way over shows the same; that with the fewest points is taken.
Ends ends_between(std::span<const frame::Point> points, const Stay& before, const Stay& after) {
    const auto within = [&](std::size_t from, std::size_t to) { return crosses_within(points, before, after, from, to); };
    if (std::abs(before.column - after.column) != 1 || !within(before.end - 1, after.begin)) return {true, true};
    if (within(before.late(), after.early())) return {false, false};
    if (within(before.late(), after.begin)) return {false, true};
    return {true, !within(before.end - 1, after.early())};
}

}  // namespace

std::vector<frame::Point> fine_line(std::span<const frame::Point> points) {
    const std::vector<Stay> stays = stays_of(points);
    std::vector<frame::Point> kept;
    std::size_t next = 0;  // the first that may still be kept
    const auto keep = [&](std::size_t i) {
        if (i >= next) kept.push_back(points[i]), next = i + 1;
    };
    Ends ends{true, true};
    for (std::size_t i = 0; i < stays.size(); ++i) {
        const Stay& stay = stays[i];
        if (ends.first) keep(stay.begin);
        keep(stay.early());
        keep(stay.late());
        ends = i + 1 < stays.size() ? ends_between(points, stay, stays[i + 1]) : Ends{true, true};
        if (ends.last) keep(stay.end - 1);
    }
    return kept;
}

}  // namespace wayfolio::plot
