#include "plot/figures/figures.hpp"

#include "plot/approach_roles.hpp"
#include "plot/marks/curves.hpp"
#include "plot/marks/record_marks.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

namespace wayfolio::plot {
namespace {

constexpr int few_ticks = 2;
constexpr double title_above_strip = 7;

Ticks mean_ticks(const report::RunOrder& order) {
    Extent extent;
    for (const auto& run : order.runs) extent.add(run.mean.in(order.unit));
    return enclosing_ticks(*extent.low, *extent.high, few_ticks);
}

Ticks temperature_ticks(const report::RecordPanel& panel) {
    Extent extent;
    for (const auto& curve : panel.curves)
        for (const auto& [time, value] : curve.points)
            if (value) extent.add(*value);
    return enclosing_ticks(*extent.low, *extent.high, few_ticks);
}

void add_means(std::vector<Item>& into, const Tools& tools, const report::RunOrder& order, const Scale& time, const Scale& y) {
    frame::Group means;
    means.id = "run-means";
    std::vector<Point> centres;
    for (const auto& run : order.runs) centres.push_back({time.map((run.from + run.to) / 2), y.map(run.mean.in(order.unit))});
    means.items.emplace_back(polyline(tools, PenRole::ZeroLine, centres));
    for (std::size_t i = 0; i < centres.size(); ++i) {
        const auto& run = order.runs[i];
        means.items.emplace_back(
            line(tools, roles_of(run.approach).mean, {time.map(run.from), centres[i].y}, {time.map(run.to), centres[i].y}));
        means.items.emplace_back(marks::marker(tools, run.approach, centres[i], tools.layout.size(SizeRole::StemMarkerRadius)));
    }
    into.emplace_back(std::move(means));
}

/// Behind a strip: when something was read.
frame::Group lanes_of(const Tools& tools, const report::RunOrder& order, const Scale& time, Paper top, Paper foot) {
    frame::Group lanes;
    lanes.id = "run-lanes";
    for (const auto& run : order.runs)
        lanes.items.emplace_back(
            rectangle(tools, ColourRole::Lane, {time.map(run.from), top, time.map(run.to) - time.map(run.from), foot - top}));
    return lanes;
}

}  // namespace

Paper run_order_height(const report::RunOrder& order) {
    const double temperatures = order.record.panels.empty() ? 0 : temperatures_below + temperatures_height;
    return pt(run_means_below + run_means_height + temperatures + axis_room);
}

DrawnFigure run_order_figure(const Tools& tools, const report::RunOrder& order, Paper left, Paper plot_left, Paper plot_right, Paper top) {
    const Scale time(order.record.from, order.record.to, plot_left, plot_right);
    const bool temperatures = !order.record.panels.empty();
    const Paper means_foot = top + pt(run_means_height), second = means_foot + pt(temperatures_below);
    const Paper foot = temperatures ? second + pt(temperatures_height) : means_foot;
    std::vector<Item> items;
    items.emplace_back(lanes_of(tools, order, time, top, means_foot));
    if (temperatures) items.emplace_back(lanes_of(tools, order, time, second, foot));
    const auto title = [&](const std::string& words, Paper strip) {
        put(items, tools, words, {.colour = ColourRole::Grey}, {left, strip - pt(title_above_strip)});
    };
    const Ticks ticks = mean_ticks(order);
    const Scale y(ticks.low(), ticks.high(), means_foot, top);
    title("Mean of each run / " + std::string(order.unit.symbol), top);
    items.emplace_back(marks::value_ticks(tools, ticks, plot_left, y));
    add_means(items, tools, order, time, y);
    if (temperatures) {
        const report::RecordPanel& panel = order.record.panels.front();
        const Ticks degrees = temperature_ticks(panel);
        const Scale warm(degrees.low(), degrees.high(), foot, second);
        title(panel.title, second);
        items.emplace_back(marks::value_ticks(tools, degrees, plot_left, warm));
        for (std::size_t i = 0; i < panel.curves.size(); ++i)
            items.emplace_back(marks::record_curve(tools, panel.curves[i], i, time, warm));
    }
    items.emplace_back(marks::time_axis(tools, order.record, time, foot));
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(items)), .bottom = foot + pt(axis_room), .bracket_top = top};
    drawn.group.alternative = order.alternative;
    drawn.group.id = "run-order";
    constexpr double title_room = 15, past_axis = 14;  // the last time is centred under the axis' end
    drawn.group.box = Rect{left, top - pt(title_room), plot_right - left + pt(past_axis), drawn.bottom - top + pt(title_room)};
    drawn.plot_left = plot_left;
    drawn.plot_right = plot_right;
    return drawn;
}

}  // namespace wayfolio::plot
