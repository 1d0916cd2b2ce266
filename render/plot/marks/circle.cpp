#include "plot/marks/circle.hpp"

#include "plot/spacing.hpp"
#include "units/number_text.hpp"

#include <cmath>

namespace wayfolio::plot::marks {

Point Dial::at(double degrees, Paper distance) const {
    const double angle = degrees * units::pi / 180;
    return {centre.x + distance * std::cos(angle), centre.y - distance * std::sin(angle)};
}

std::vector<Point> dial_path(const Dial& dial, const std::vector<DialPoint>& points) {
    std::vector<Point> path;
    constexpr double step = 3;  // degrees: a chord then leaves its arc by less than 0.04 % of the radius
    for (std::size_t i = 0; i < points.size(); ++i) {
        path.push_back(dial.at(points[i].degrees, points[i].value));
        if (i + 1 == points.size()) break;
        const double turned = points[i + 1].degrees - points[i].degrees;
        const int pieces = static_cast<int>(std::ceil(std::abs(turned) / step));
        for (int k = 1; k < pieces; ++k) {
            const double share = static_cast<double>(k) / pieces;
            path.push_back(dial.at(points[i].degrees + turned * share, points[i].value + (points[i + 1].value - points[i].value) * share));
        }
    }
    return path;
}

frame::Group rings(const Tools& tools, const Dial& dial, const Ticks& ticks, Paper numbers_right) {
    frame::Group group{.id = "rings"};
    for (const double value : ticks.values) {
        const Paper radius = dial.radius.map(value), height = dial.centre.y - radius;
        frame::Path ring{
            .steps = circle(dial.centre, radius), .fill = {}, .stroke = stroke(tools, value == 0 ? PenRole::Axis : PenRole::QuietAxis)};
        group.items.emplace_back(std::move(ring));
        constexpr double gap = 4;
        group.items.emplace_back(line(tools, PenRole::Leader, {numbers_right + pt(gap), height}, {dial.centre.x, height}));
        put(group.items, tools, units::number(value, ticks.decimals, {tools.layout.decimal_mark}), {},
            {numbers_right, height + pt(half_figure)}, Align::Right);
    }
    return group;
}

frame::Group degrees(const Tools& tools, const Dial& dial) {
    frame::Group group{.id = "degrees"};
    const Paper outer = dial.radius.to(), tick = tools.layout.size(SizeRole::TickLength);
    constexpr int step = 30, quarter = 90, turn = 360;
    for (int at = 0; at < turn; at += step) {
        group.items.emplace_back(line(tools, PenRole::Tick, dial.at(at, outer), dial.at(at, outer + tick)));
        if (at % quarter != 0) continue;
        constexpr double beside = 7, above = 7;
        const std::string words = std::to_string(at) + "°";
        const Point end = dial.at(at, outer);
        if (at == 0) put(group.items, tools, words, {}, {end.x + pt(beside), end.y + pt(half_figure)});
        else if (at == quarter) put(group.items, tools, words, {}, {end.x, end.y - pt(above)}, Align::Centre);
        else if (at == 2 * quarter) put(group.items, tools, words, {}, {end.x - pt(beside), end.y + pt(half_figure)}, Align::Right);
        else put(group.items, tools, words, {}, {end.x, end.y + pt(number_below_axis)}, Align::Centre);
    }
    return group;
}

}  // namespace wayfolio::plot::marks
