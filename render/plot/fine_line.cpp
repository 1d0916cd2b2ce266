#include "plot/fine_line.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::plot {
namespace {

constexpr double dots_per_point = 600.0 / 72;

double column_of(const frame::Point& point) { return std::floor(point.x.in(units::point) * dots_per_point); }

}  // namespace

std::vector<frame::Point> fine_line(std::span<const frame::Point> points) {
    std::vector<frame::Point> kept;
    for (auto begin = points.begin(); begin != points.end();) {
        const double column = column_of(*begin);
        const auto end = std::find_if(begin, points.end(), [&](const frame::Point& point) { return column_of(point) != column; });
        const auto lower = [](const frame::Point& a, const frame::Point& b) { return a.y < b.y; };
        const auto [least, greatest] = std::minmax_element(begin, end, lower);
        for (auto point = begin; point != end; ++point)
            if (point == begin || point == least || point == greatest || point + 1 == end) kept.push_back(*point);
        begin = end;
    }
    return kept;
}

}  // namespace wayfolio::plot
