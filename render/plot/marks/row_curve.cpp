#include "plot/marks/row_curve.hpp"

#include "plot/area.hpp"
#include "plot/fine_line.hpp"
#include "plot/marks/axes.hpp"
#include "units/number_text.hpp"

#include <algorithm>

namespace wayfolio::plot::marks {
namespace {

using Form = report::RowCurve::Form;

Extent levels_of(const report::RowCurve& curve, const units::DeviationUnit& unit) {
    Extent levels;
    if (curve.form == Form::Stems) levels.add(0);
    for (const auto* points : {&curve.first, &curve.second})
        for (const auto& [position, value] : *points) levels.add(value.in(unit));
    return levels;
}

}  // namespace

double height_of(const report::RowCurve& curve, const units::DeviationUnit& unit) { return levels_of(curve, unit).width(); }

frame::Group row_curve(const Tools& tools, const report::RowCurve& curve, const Scale& x, const units::PositionUnit& position_unit,
                       const units::DeviationUnit& unit, double points_per_unit, const Rect& box) {
    frame::Group group;
    if (curve.empty()) return group;
    const Extent levels = levels_of(curve, unit);
    const double centre = (*levels.low + *levels.high) / 2;
    const Paper middle = box.top + box.height / 2;
    const auto y = [&](double value) { return middle - pt((value - centre) * points_per_unit); };
    const auto at = [&](const auto& point) { return Point{x.map(point.first.in(position_unit)), y(point.second.in(unit))}; };
    const auto outline = [&](const report::RowCurve::Points& points) {
        std::vector<Point> all;
        all.reserve(points.size());
        for (const auto& point : points) all.push_back(at(point));
        return all;
    };
    const auto draw = [&](PenRole pen, const std::vector<Point>& points) {
        if (points.size() > 1) group.items.emplace_back(polyline(tools, pen, fine_line(points)));
    };
    std::vector<Point> first = outline(curve.first);
    const std::vector<Point> second = outline(curve.second);
    if (curve.form == Form::Band && first.size() > 1) {
        std::vector<Point> area = first;
        area.insert(area.end(), second.rbegin(), second.rend());
        group.items.emplace_back(filled(tools, ColourRole::Band, area));
    }
    if (y(0) > box.top - pt(0.5) && y(0) < box.bottom() + pt(0.5))
        group.items.emplace_back(line(tools, PenRole::ZeroLine, {x.from(), y(0)}, {x.to(), y(0)}));
    switch (curve.form) {
        case Form::Band:
            draw(PenRole::BandEdge, first);
            draw(PenRole::BandEdge, second);
            break;
        case Form::Means:
            draw(PenRole::SecondCurve, second);
            draw(PenRole::Curve, first);
            break;
        case Form::Mean: draw(PenRole::Curve, first); break;
        case Form::Stems:
            for (const Point& end : first) group.items.emplace_back(line(tools, PenRole::RowStem, {end.x, y(0)}, end));
            break;
    }
    constexpr double dot = 1.4;  // smaller than a marker: the curve is a thumb's width high
    std::vector<Point> dots = outline(curve.settings);
    if (dots.empty() && first.size() == 1) dots = first;  // a curve of one place is a dot
    for (const Point& place : dots) group.items.emplace_back(disc(tools, ColourRole::Ink, place, pt(dot)));
    return group;
}

frame::Group row_lean(const Tools& tools, report::Lean lean, const Rect& box) {
    constexpr double foot = 30, corner = 9, aside = 3.5;
    const Point at{box.left + pt(corner), box.bottom()};
    const Paper tip = pt(lean == report::Lean::Open ? -aside : lean == report::Lean::Closed ? aside : 0);
    return {.items = {line(tools, PenRole::Curve, {box.left, at.y}, {box.left + pt(foot), at.y}),
                      line(tools, PenRole::ZeroLine, at, {at.x, box.top}), line(tools, PenRole::Curve, at, {at.x + tip, box.top})}};
}

namespace {

struct AxisPlaces {
    Scale x;
    Ticks ticks;
};

std::optional<AxisPlaces> axis_places(const report::RowAxis& axis, Paper left, Paper right) {
    const double from = axis.from.in(axis.unit), to = axis.to.in(axis.unit);
    if (!(to > from)) return std::nullopt;
    constexpr double closer = 1.45;  // numbers of small type may stand closer than in a figure
    Extent extent;
    extent.add(from);
    extent.add(to);
    return AxisPlaces{Scale(from, to, left, right), position_ticks(extent, axis.unit, (right - left) * closer)};
}

void add_guides(std::vector<Item>& into, const Tools& tools, const AxisPlaces& places, Paper top, Paper bottom) {
    for (const double value : places.ticks.values) {
        const Paper x = places.x.map(value);
        into.emplace_back(line(tools, PenRole::Guide, {x, top}, {x, bottom}));
    }
}

}  // namespace

frame::Group row_axis(const Tools& tools, const report::RowAxis& axis, Paper left, Paper right, Paper top, Paper foot) {
    frame::Group group{.id = "row-axis"};
    const auto places = axis_places(axis, left, right);
    if (!places) return group;
    add_guides(group.items, tools, *places, top, foot);
    group.items.emplace_back(line(tools, PenRole::Axis, {places->x.from(), foot}, {places->x.to(), foot}));
    constexpr double numbers_below = 11, title_gap = 8, number_gap = 3;
    const Paper baseline = foot + pt(numbers_below), tick = tools.layout.size(SizeRole::TickLength);
    Paper first = places->x.from(), free = Paper{};
    for (const double value : places->ticks.values) {
        const Paper x = places->x.map(value);
        const report::Text number(units::number(value, places->ticks.decimals, {tools.layout.decimal_mark}));
        group.items.emplace_back(line(tools, PenRole::Axis, {x, foot}, {x, foot + tick}));
        const Paper half = width_of(tools, number, {}) / 2;
        if (x - half < free) continue;  // the tick alone
        put(group.items, tools, number, {}, {x, baseline}, Align::Centre);
        free = x + half + pt(number_gap);
        first = std::min(first, x - half);
    }
    put(group.items, tools, axis.title, {.colour = ColourRole::Grey}, {first - pt(title_gap), baseline}, Align::Right);
    return group;
}

frame::Group row_guides(const Tools& tools, const report::RowAxis& axis, Paper left, Paper right, Paper top, Paper bottom) {
    frame::Group group;
    if (const auto places = axis_places(axis, left, right)) add_guides(group.items, tools, *places, top, bottom);
    return group;
}

}  // namespace wayfolio::plot::marks
