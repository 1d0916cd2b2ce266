#include "plot/marks/axes.hpp"

#include "plot/spacing.hpp"
#include "units/number_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wayfolio::plot::marks {
namespace {

constexpr double label_width = 28;    // one x number with its share of air
constexpr double title_gap = 3;       // title to the number right of it
constexpr int most_numbers = 8;

std::string number_of(const Tools& tools, double value, int decimals) {
    return units::number(value, decimals, {tools.layout.decimal_mark});
}

}  // namespace

Ticks position_ticks(const Extent& positions, const units::PositionUnit& unit, Paper width) {
    const int most = std::clamp(static_cast<int>(width.in(units::point) / label_width), 2, most_numbers);
    if (unit == units::position_degree && positions.width() > 60) {
        for (const double step : std::array<double, 6>{15, 30, 45, 90, 180, 360}) {
            const double first = std::ceil(*positions.low / step), last = std::floor(*positions.high / step);
            if (last - first + 1 > most) continue;
            Ticks ticks{.values = {}, .step = step, .decimals = 0};
            for (double i = first; i <= last; ++i) ticks.values.push_back(i * step);
            return ticks;
        }
    }
    return inside_ticks(*positions.low, *positions.high, most);
}

Paper y_label_room(const Tools& tools, const Ticks& ticks) {
    Paper widest{};
    for (const double value : ticks.values) widest = std::max(widest, width_of(tools, number_of(tools, value, ticks.decimals), {}));
    return widest + pt(number_beside_axis);
}

Paper x_title_room(const Tools& tools, const report::Text& title, const Extent& positions) {
    const Ticks ticks = inside_ticks(*positions.low, *positions.high, most_numbers);
    const Paper first = width_of(tools, number_of(tools, ticks.values.empty() ? 0 : ticks.values.front(), ticks.decimals), {});
    constexpr double hair = 0.1;  // the number is left out where it is too near by a rounding error
    return width_of(tools, title, {}) + pt(title_gap + hair) + first / 2;
}

frame::Group y_axis(const Tools& tools, const Area& area, const Ticks& ticks, Labels labels) {
    frame::Group group{.id = "y-axis"};
    for (const double value : ticks.values) {
        const Paper y = area.y.map(value);
        group.items.emplace_back(line(tools, PenRole::Tick, {area.left() - tools.layout.size(SizeRole::TickLength), y}, {area.left(), y}));
        if (labels == Labels::None) continue;
        put(group.items, tools, number_of(tools, value, ticks.decimals), {}, {area.left() - pt(number_beside_axis), y + pt(half_figure)},
            Align::Right);
    }
    return group;
}

frame::Group x_axis(const Tools& tools, const Area& area, const Extent& positions, const report::Text& title, Paper title_x,
                    Labels labels) {
    frame::Group group{.id = "x-axis"};
    const bool labelled = labels == Labels::Numbers;
    const PenRole pen = labelled ? PenRole::Axis : PenRole::QuietAxis;
    const Paper foot = area.bottom(), tick = tools.layout.size(SizeRole::TickLength);
    group.items.emplace_back(line(tools, pen, {area.left(), foot}, {area.right(), foot}));
    const Ticks ticks = position_ticks(positions, area.position_unit, area.right() - area.left());
    Paper title_end = title_x;
    if (labelled)
        title_end = title_x + put(group.items, tools, title, {.colour = ColourRole::Grey}, {title_x, foot + pt(number_below_axis)});
    for (const double value : ticks.values) {
        const Paper x = area.x.map(value);
        group.items.emplace_back(line(tools, pen, {x, foot}, {x, foot + tick}));
        if (!labelled) continue;
        const std::string words = number_of(tools, value, ticks.decimals);
        const Paper half = width_of(tools, words, {}) / 2;
        // The title shares the line of the numbers: a number that would touch it keeps its tick only.
        if (!title.empty() && x - half < title_end + pt(title_gap)) continue;
        put(group.items, tools, words, {}, {x, foot + pt(number_below_axis)}, Align::Centre);
    }
    return group;
}

frame::Group zero_line(const Tools& tools, const Area& area) {
    frame::Group group{.id = "zero"};
    if (area.y.low() < 0 && area.y.high() > 0) {
        const Paper y = area.y.map(0);
        group.items.emplace_back(line(tools, PenRole::ZeroLine, {area.left(), y}, {area.right(), y}));
    }
    return group;
}

}  // namespace wayfolio::plot::marks
