#include "plot/record_figure.hpp"

#include "plot/marks/axes.hpp"
#include "plot/marks/record_marks.hpp"

#include <algorithm>

namespace wayfolio::plot {
namespace {

constexpr double lanes_at = 16, first_title_below = 19, title_above = 9, numbers_below = 16;
constexpr int most_ticks = 3;

struct Panel {
    const report::RecordPanel* panel;
    Ticks ticks;
    Extent extent;
};

Extent extent_of(const report::RecordPanel& panel) {
    Extent extent;
    for (const auto& curve : panel.curves)
        for (const auto& [time, value] : curve.points)
            if (value) extent.add(*value);
    return extent;
}

std::vector<Panel> panels_of(const report::RecordPlot& plot) {
    std::vector<Panel> panels;
    for (const report::RecordPanel& panel : plot.panels) {
        const Extent extent = extent_of(panel);
        panels.push_back({&panel, enclosing_ticks(*extent.low, *extent.high, most_ticks), extent});
    }
    return panels;
}

Paper label_room(const Tools& tools, const std::vector<Panel>& panels) {
    Paper room = tools.layout.size("tick_label_room");
    for (const Panel& panel : panels) room = std::max(room, marks::y_label_room(tools, panel.ticks));
    return room;
}

Paper first_panel(Paper top) { return top + pt(lanes_at + first_title_below); }

/// The panel's title; beside no margin also what its curves are.
report::Text title_of(const report::RecordPanel& panel, CurveWords words) {
    report::Text title = report::Text().quiet(panel.title);
    if (words == CurveWords::None) return title;
    title.plain("   ");
    for (std::size_t i = 0; i < panel.curves.size(); ++i) title.plain(i > 0 ? "; " : "").append(panel.curves[i].words);
    return title;
}

Paper last_level(const report::RecordCurve& curve, const Scale& y) {
    for (auto point = curve.points.rbegin(); point != curve.points.rend(); ++point)
        if (point->second) return y.map(*point->second);
    return y.to();
}

}  // namespace

Paper record_height(const Tools& tools, const report::RecordPlot& plot) {
    const auto panels = static_cast<double>(plot.panels.size());
    return first_panel({}) + tools.layout.size("record_height") * panels + tools.layout.size("record_gap") * (panels - 1) + pt(numbers_below);
}

RecordFigure record_figure(const Tools& tools, const report::RecordPlot& plot, Paper left, Paper right, Paper top, CurveWords words) {
    const std::vector<Panel> panels = panels_of(plot);
    const Paper height = tools.layout.size("record_height"), gap = tools.layout.size("record_gap");
    const Scale time(plot.from, plot.to, left + label_room(tools, panels), right);
    RecordFigure made;
    std::vector<Item> items;
    Paper at = first_panel(top);
    const Paper foot = at + height * static_cast<double>(panels.size()) + gap * static_cast<double>(panels.size() - 1);
    items.emplace_back(marks::run_lanes(tools, plot, time, top + pt(lanes_at), foot));
    if (!plot.lanes.empty()) put(items, tools, "Runs", {.colour = "grey"}, {left, top + pt(lanes_at - 4)});
    for (const Panel& panel : panels) {
        const Scale y(panel.ticks.low(), panel.ticks.high(), at + height, at);
        put(items, tools, title_of(*panel.panel, words), {}, {left, at - pt(title_above)});
        items.emplace_back(marks::value_ticks(tools, panel.ticks, time.from(), y));
        const std::size_t before = made.words.size();
        for (std::size_t i = 0; i < panel.panel->curves.size(); ++i) {
            items.emplace_back(marks::record_curve(tools, panel.panel->curves[i], i, time, y));
            made.words.emplace_back(last_level(panel.panel->curves[i], y), panel.panel->curves[i].words);
        }
        std::ranges::stable_sort(made.words.begin() + static_cast<long>(before), made.words.end(), {}, &std::pair<Paper, report::Text>::first);
        at += height + gap;
    }
    items.emplace_back(marks::time_axis(tools, plot, time, foot));
    made.drawn = {.group = grouped(frame::Role::Figure, std::move(items)), .bottom = foot + pt(numbers_below), .bracket_top = top, .reversal_top = {}, .repeatability_top = {}};
    made.drawn.group.alternative = plot.alternative;
    made.drawn.group.id = "environment";
    made.drawn.group.box = Rect{left, top - pt(8), right - left + pt(14), made.drawn.bottom - top + pt(8)};
    return made;
}

}  // namespace wayfolio::plot
