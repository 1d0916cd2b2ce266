#include "plot/marks/mean_curve.hpp"

#include <algorithm>

namespace wayfolio::plot::marks {
namespace {

Extent extent_of_curve(const CurvePoints& curve, const DeviationUnit& unit) {
    Extent extent;
    for (const auto& [position, value] : curve) extent.add(value.in(unit));
    return extent;
}

}  // namespace

double curve_scale(const std::vector<const CurvePoints*>& curves, const DeviationUnit& unit, Paper height) {
    double widest = 0;
    for (const CurvePoints* curve : curves) widest = std::max(widest, extent_of_curve(*curve, unit).width());
    return widest > 0 ? height.in(units::point) / widest : 1;
}

frame::Group mean_curve(const Tools& tools, const CurvePoints& curve, const DeviationUnit& unit, double points_per_unit, Rect box) {
    frame::Group group;
    if (curve.empty()) return group;
    const Extent levels = extent_of_curve(curve, unit);
    const double centre = (*levels.low + *levels.high) / 2;
    const Paper middle = box.top + box.height / 2;
    const auto y = [&](double value) { return middle - pt((value - centre) * points_per_unit); };
    // A trace may run backwards, or turn back.
    const auto [least, most] = std::ranges::minmax_element(curve, {}, &CurvePoints::value_type::first);
    const Position first = least->first, last = most->first;
    const auto x = [&](const Position& at) {
        return first == last ? box.left + box.width / 2 : box.left + box.width * ((at - first) / (last - first));
    };
    if (y(0) > box.top && y(0) < box.bottom())
        group.items.emplace_back(line(tools, PenRole::ZeroLine, {box.left, y(0)}, {box.right(), y(0)}));
    std::vector<Point> points;
    for (const auto& [position, value] : curve) points.push_back({x(position), y(value.in(unit))});
    group.items.emplace_back(polyline(tools, PenRole::Curve, points));
    constexpr double dot = 1.4;  // smaller than a marker: the curve is a thumb's width high
    const auto [lowest, highest] = std::ranges::minmax_element(curve, {}, [&](const auto& p) { return p.second.in(unit); });
    for (const auto& extreme : {lowest, highest}) {
        group.items.emplace_back(disc(tools, ColourRole::Ink, {x(extreme->first), y(extreme->second.in(unit))}, pt(dot)));
    }
    return group;
}

}  // namespace wayfolio::plot::marks
