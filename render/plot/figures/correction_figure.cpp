#include "plot/figures/figures.hpp"

#include "plot/figures/layers.hpp"
#include "plot/marks/axes.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

namespace wayfolio::plot {
namespace {

using report::Compensation;

constexpr double share_above = 0.66, between_plots = 38, title_over_plot = 12, title_of_figure = 20;
constexpr int most_ticks_above = 6, most_ticks_below = 4;

/// Both plots share their position axis.
struct CorrectionColumns {
    Paper left, plot_left, plot_right;
    Extent positions;
};

Ticks ticks_above(const Compensation& block) {
    Extent extent = shown_extent(*block.measured);
    extent.add(0);
    for (const auto& steps : block.steps)
        for (const report::CorrectionStep& step : steps) extent.add(step.level.in(block.measured->unit));
    return enclosing_ticks(*extent.low, *extent.high, most_ticks_above);
}

Ticks ticks_below(const Compensation& block) {
    Extent extent = shown_extent(*block.predicted);
    extent.add(0);
    for (const auto& [position, value] : block.later) extent.add(value.in(block.predicted->unit));
    return enclosing_ticks(*extent.low, *extent.high, most_ticks_below);
}

Area area_in(const CorrectionColumns& columns, const report::DeviationPlot& plot, const Ticks& ticks, Paper top, Paper bottom) {
    return {.x = Scale(*columns.positions.low, *columns.positions.high, columns.plot_left, columns.plot_right),
            .y = Scale(ticks.low(), ticks.high(), bottom, top),
            .position_unit = plot.position_unit,
            .unit = plot.unit};
}

/// Over zero where there is one table; two would hide each other.
void draw_steps(std::vector<Item>& into, const Tools& tools, const Compensation& block, const Area& area) {
    for (const auto& steps : block.steps) {
        std::vector<Point> outline;
        for (const report::CorrectionStep& step : steps) {
            const Paper from = std::clamp(area.across(step.from), area.left(), area.right()),
                        to = std::clamp(area.across(step.to), area.left(), area.right()), level = area.up(step.level);
            if (block.steps.size() == 1 && from < to)
                into.emplace_back(rectangle(tools, ColourRole::ValueBar,
                                            {from, std::min(level, area.y.map(0)), to - from,
                                             std::max(level, area.y.map(0)) - std::min(level, area.y.map(0))}));
            outline.push_back({from, level});
            outline.push_back({to, level});
        }
        if (outline.size() > 1) into.emplace_back(polyline(tools, PenRole::Trace, outline));
    }
}

void draw_later(std::vector<Item>& into, const Tools& tools, const Compensation& block, const Area& area) {
    std::vector<Point> points;
    for (const auto& [position, value] : block.later) {
        const Paper x = area.across(position);
        if (x >= area.left() - pt(line_air) && x <= area.right() + pt(line_air)) points.push_back({x, area.up(value)});
    }
    if (points.size() < 2) return;
    frame::Path path = polyline(tools, PenRole::Record, points);
    path.stroke->colour = tools.layout.colour(ColourRole::Grey);
    into.emplace_back(std::move(path));
}

void put_title(std::vector<Item>& into, const Tools& tools, const std::string& words, Paper left, Paper top) {
    put(into, tools, words, {.colour = ColourRole::Grey}, {left, top - pt(title_over_plot)});
}

}  // namespace

DrawnFigure correction_figure(const Tools& tools, const Compensation& block, const Rect& box) {
    const Ticks above = ticks_above(block), below = ticks_below(block);
    const Paper room = std::max(
        {tools.layout.size(SizeRole::TickLabelRoom), marks::y_label_room(tools, above), marks::y_label_room(tools, below)});
    const CorrectionColumns columns{box.left, box.left + room, box.right(), shared_positions({&*block.measured, &*block.predicted})};
    const Paper plots = box.height - pt(between_plots), upper_bottom = box.top + plots * share_above,
                lower_top = upper_bottom + pt(between_plots);
    const Area upper = area_in(columns, *block.measured, above, box.top, upper_bottom),
               lower = area_in(columns, *block.predicted, below, lower_top, box.bottom());
    std::vector<Item> items;
    put_title(items, tools, block.measured_title, box.left, box.top);
    items.emplace_back(marks::y_axis(tools, upper, above, marks::Labels::Numbers));
    draw_steps(items, tools, block, upper);
    items.emplace_back(marks::zero_line(tools, upper));
    const Paper radius = tools.layout.size(SizeRole::MarkerRadiusSmall);
    data_layers(items, tools, *block.measured, upper, radius);
    put_title(items, tools, block.predicted_title, box.left, lower_top);
    items.emplace_back(marks::y_axis(tools, lower, below, marks::Labels::Numbers));
    items.emplace_back(marks::zero_line(tools, lower));
    draw_later(items, tools, block, lower);
    data_layers(items, tools, *block.predicted, lower, radius);
    const report::Text x_title(block.measured->axis_name + " / " + std::string(block.measured->position_unit.symbol));
    items.emplace_back(marks::x_axis(tools, lower, columns.positions, x_title, box.left, marks::Labels::Numbers));
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(items)),
                      .bottom = box.bottom() + pt(axis_room),
                      .bracket_top = box.top};
    drawn.group.alternative = block.measured->alternative + " " + block.predicted->alternative;
    drawn.group.id = block.predicted->series_id;
    drawn.group.box = Rect{box.left, box.top - pt(title_of_figure), box.width, drawn.bottom - box.top + pt(title_of_figure)};
    return drawn;
}

}  // namespace wayfolio::plot
