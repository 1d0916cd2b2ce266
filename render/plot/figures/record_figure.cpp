#include "plot/figures/figures.hpp"

#include "plot/marks/axes.hpp"
#include "plot/marks/record_marks.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <functional>

namespace wayfolio::plot {
namespace {

constexpr double lanes_at = 16, first_title_below = 19, title_above = 9;
constexpr double name_above_lanes = 4, past_axis = 14;  // the last time is centred under the axis' end
constexpr int most_ticks = 3;

struct Panel {
    const report::RecordPanel* panel;
    Ticks ticks;
    Extent extent;
};

Extent extent_of_record(const report::RecordPanel& panel) {
    Extent extent;
    for (const auto& curve : panel.curves)
        for (const auto& [time, value] : curve.points)
            if (value) extent.add(*value);
    return extent;
}

std::vector<Panel> panels_of(const report::RecordPlot& plot) {
    std::vector<Panel> panels;
    for (const report::RecordPanel& panel : plot.panels) {
        const Extent extent = extent_of_record(panel);
        panels.push_back({&panel, enclosing_ticks(*extent.low, *extent.high, most_ticks), extent});
    }
    return panels;
}

Paper record_label_room(const Tools& tools, const std::vector<Panel>& panels) {
    Paper room = tools.layout.size(SizeRole::TickLabelRoom);
    for (const Panel& panel : panels) room = std::max(room, marks::y_label_room(tools, panel.ticks));
    return room;
}

Paper first_panel(Paper top) { return top + pt(lanes_at + first_title_below); }

double last_value(const report::RecordCurve& curve) {
    for (auto point = curve.points.rbegin(); point != curve.points.rend(); ++point)
        if (point->second) return *point->second;
    return 0;
}

/// The panel's title; beside no margin also what its curves are, as they end from above.
report::Text title_of(const report::RecordPanel& panel, CurveWords words) {
    report::Text title = report::Text().quiet(panel.title);
    if (words == CurveWords::None) return title;
    std::vector<const report::RecordCurve*> curves;
    for (const auto& curve : panel.curves) curves.push_back(&curve);
    std::ranges::stable_sort(curves, std::greater{}, [](const auto* curve) { return last_value(*curve); });
    title.plain(curves.size() > 1 ? "   from above: " : "   ");
    for (std::size_t i = 0; i < curves.size(); ++i) title.plain(i > 0 ? "; " : "").append(curves[i]->words);
    return title;
}

/// A title takes as many lines as it needs, the last one at its usual height above the panel.
std::vector<text::Line> title_lines(const Tools& tools, const report::RecordPanel& panel, CurveWords words, Paper width) {
    return tools.shaper.paragraph(pieces(tools, title_of(panel, words), {}), text_style(tools, {}), width);
}

void put_lines(std::vector<Item>& into, const Tools& tools, const std::vector<text::Line>& lines, Point last) {
    Paper y = last.y - tools.layout.type(TypeRole::Small).leading * static_cast<double>(lines.size() - 1);
    for (const text::Line& one : lines) {
        for (auto& run : text::placed(one, {last.x, y})) into.emplace_back(std::move(run));
        y += tools.layout.type(TypeRole::Small).leading;
    }
}

/// What the curves of a panel are, each at the height where it ends.
std::vector<std::pair<Paper, report::Text>> words_from_above(const std::vector<report::RecordCurve>& curves, const Scale& y) {
    std::vector<std::pair<Paper, report::Text>> words;
    for (const report::RecordCurve& curve : curves) words.emplace_back(y.map(last_value(curve)), curve.words);
    std::ranges::stable_sort(words, {}, &std::pair<Paper, report::Text>::first);
    return words;
}

}  // namespace

Paper record_height(const Tools& tools, const report::RecordPlot& plot) {
    const auto panels = static_cast<double>(plot.panels.size());
    return first_panel({}) + tools.layout.size(SizeRole::RecordHeight) * panels + tools.layout.size(SizeRole::RecordGap) * (panels - 1) +
           pt(axis_room);
}

RecordFigure record_figure(const Tools& tools, const report::RecordPlot& plot, Paper left, Paper right, Paper top, CurveWords words) {
    const std::vector<Panel> panels = panels_of(plot);
    const Paper height = tools.layout.size(SizeRole::RecordHeight), gap = tools.layout.size(SizeRole::RecordGap);
    const Scale time(plot.from, plot.to, left + record_label_room(tools, panels), right);
    RecordFigure made;
    std::vector<Item> items;
    const Paper leading = tools.layout.type(TypeRole::Small).leading;
    std::vector<std::vector<text::Line>> titles;
    Paper foot = first_panel(top) + height * static_cast<double>(panels.size()) + gap * static_cast<double>(panels.size() - 1);
    for (const Panel& panel : panels) {
        titles.push_back(title_lines(tools, *panel.panel, words, right - left));
        foot += leading * static_cast<double>(titles.back().size() - 1);
    }
    Paper at = first_panel(top);
    items.emplace_back(marks::run_lanes(tools, plot, time, top + pt(lanes_at), foot));
    if (!plot.lanes.empty()) put(items, tools, "Runs", {.colour = ColourRole::Grey}, {left, top + pt(lanes_at - name_above_lanes)});
    for (std::size_t p = 0; p < panels.size(); ++p) {
        const Panel& panel = panels[p];
        at += leading * static_cast<double>(titles[p].size() - 1);
        const Scale y(panel.ticks.low(), panel.ticks.high(), at + height, at);
        put_lines(items, tools, titles[p], {left, at - pt(title_above)});
        items.emplace_back(marks::value_ticks(tools, panel.ticks, time.from(), y));
        const auto& curves = panel.panel->curves;
        for (std::size_t i = 0; i < curves.size(); ++i) items.emplace_back(marks::record_curve(tools, curves[i], i, time, y));
        std::ranges::move(words_from_above(curves, y), std::back_inserter(made.words));
        at += height + gap;
    }
    items.emplace_back(marks::time_axis(tools, plot, time, foot));
    made.drawn = {.group = grouped(frame::Role::Figure, std::move(items)),
                  .bottom = foot + pt(axis_room),
                  .bracket_top = top,
                  .reversal_top = {}, .repeatability_top = {}};
    made.drawn.group.alternative = plot.alternative;
    made.drawn.group.id = "environment";
    made.drawn.group.box = Rect{left, top - pt(title_ascent), right - left + pt(past_axis), made.drawn.bottom - top + pt(title_ascent)};
    return made;
}

}  // namespace wayfolio::plot
