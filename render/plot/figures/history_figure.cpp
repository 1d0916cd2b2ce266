#include "plot/figures/history_figure.hpp"

#include "plot/area.hpp"
#include "plot/marks/axes.hpp"
#include "plot/marks/history_marks.hpp"
#include "plot/marks/record_marks.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::plot {
namespace {

constexpr double column_gap = 26, row_gap = 20, head_above = 10, key_below = 16, words_below = 26;
constexpr double usual_panel_height = 146, least_panel_height = 90;
constexpr int most_value_ticks = 6;
constexpr double most_of_values = 4;  // a limit farther off than this many times the values would squeeze them flat

struct PanelScale {
    Ticks ticks;
    std::vector<text::Line> head, words;
};

Ticks history_ticks(const report::HistoryPanel& panel) {
    Extent extent;
    for (const report::HistoryValue& value : panel.values) {
        extent.add(value.value + value.expanded.value_or(0));
        extent.add(value.value - value.expanded.value_or(0));
    }
    const double largest = std::max(std::abs(*extent.low), std::abs(*extent.high));
    for (const report::HistoryLimit& limit : panel.limits)
        if (std::abs(limit.value) <= most_of_values * largest) {
            extent.add(limit.value);
            extent.add(limit.value < 0 ? limit.value - limit.U : limit.value + limit.U);
        }
    if (panel.from_zero) return enclosing_ticks(0, std::max(*extent.high, 0.0), most_value_ticks);
    return enclosing_ticks(*extent.low, *extent.high, most_value_ticks);
}

std::vector<text::Line> head_of(const Tools& tools, const report::HistoryPanel& panel, Paper width) {
    return tools.shaper.paragraph(pieces(tools, report::emphasised(panel.title), {}), text_style(tools, {}), width);
}

/// The words below; a limit that the scale does not reach is told there.
std::vector<text::Line> words_below_of(const Tools& tools, const report::HistoryPanel& panel, const Ticks& ticks, Paper width) {
    report::Text words = panel.words;
    if (!panel.limits.empty() && std::abs(panel.limits.back().value) > ticks.high())
        words.quiet("; ").append(panel.limit_label).quiet(", above the scale");
    return tools.shaper.paragraph(pieces(tools, words, {}), text_style(tools, {}), width);
}

frame::Group panel_group(const Tools& tools, const report::HistoryPanel& panel, const PanelScale& scaled, const Scale& time,
                         const Rect& box, std::size_t heads, Paper panel_height) {
    std::vector<Item> items;
    Paper y_text = box.top;
    for (const text::Line& one : scaled.head) {
        for (auto& run : text::placed(one, {box.left, y_text})) items.emplace_back(std::move(run));
        y_text += tools.layout.type(TypeRole::Small).leading;
    }
    const Paper head = tools.layout.type(TypeRole::Small).leading * (static_cast<double>(heads) - 1) + pt(head_above) * 1.5;
    const Paper height = panel_height, foot = box.top + head + height;
    Paper below = foot + pt(words_below);
    for (const text::Line& one : scaled.words) {
        for (auto& run : text::placed(one, {time.from(), below})) items.emplace_back(std::move(run));
        below += tools.layout.type(TypeRole::Small).leading;
    }
    const Scale y(scaled.ticks.low(), scaled.ticks.high(), foot, foot - height);
    LabelPlaces places(
        {time.from(), foot - height - pt(head_above - line_air), time.to() - time.from(), height + pt(head_above - line_air)});
    items.emplace_back(marks::value_ticks(tools, scaled.ticks, time.from(), y));
    if (y.low() < 0 && y.high() > 0) items.emplace_back(line(tools, PenRole::ZeroLine, {time.from(), y.map(0)}, {time.to(), y.map(0)}));
    items.emplace_back(marks::history_guards(tools, panel, time, y));
    items.emplace_back(marks::history_path(tools, panel, time, y));
    items.emplace_back(marks::history_adjustments(tools, panel, time, y));
    frame::Group values = marks::history_values(tools, panel, time, y, places);
    if (panel.trend) items.emplace_back(marks::history_trend(tools, *panel.trend, time, y, places));
    items.emplace_back(marks::history_limits(tools, panel, time, y, places));
    items.emplace_back(std::move(values));
    items.emplace_back(marks::history_labels(tools, panel, time, y, places));
    items.emplace_back(marks::date_axis(tools, time, foot));
    frame::Group group = grouped(frame::Role::Figure, std::move(items));
    group.alternative = panel.alternative;
    group.id = panel.id;
    group.box = Rect{box.left, box.top - pt(title_ascent), box.width, box.height + pt(title_ascent)};
    return group;
}

/// What bars and lines are, where they are drawn.
report::Text strokes_of(const report::HistoryPlot& plot) {
    const auto any = [&](auto holds) { return std::ranges::any_of(plot.panels, holds); };
    const bool bars = any(
        [](const auto& panel) { return std::ranges::any_of(panel.values, [](const auto& value) { return value.expanded.has_value(); }); });
    const bool trends = any([](const auto& panel) { return panel.trend.has_value(); });
    report::Text words;
    if (bars) words.plain("Bars: ± ").symbol("U").plain(". ");
    const bool guards = any(
        [](const auto& panel) { return std::ranges::any_of(panel.limits, [](const auto& limit) { return limit.U > 0; }); });
    if (guards) words.plain("Hatched: ± ").symbol("U").plain(" of the latest value about the limit. ");
    if (trends)
        words.plain("Dash-dotted: least squares between two adjustments, where the slope exceeds its own ")
            .symbol("U")
            .plain(" (95\u202f%).");
    return words;
}

/// One entry of the key: the mark, then its words.
void entry(std::vector<Item>& items, const Tools& tools, frame::Group mark, std::string_view words, Point& at, double mark_room = 7) {
    constexpr double apart = 14;
    items.emplace_back(std::move(mark));
    at.x += pt(mark_room);
    at.x += put(items, tools, report::Text(std::string(words)), {.colour = ColourRole::Grey}, at) + pt(apart);
}

/// The symbols that are drawn, for the verdicts that share each; a stroke where nothing was decided, an arrow, a cross.
void add_mark_entries(std::vector<Item>& items, const Tools& tools, const report::HistoryPlot& plot, Point& at) {
    using report::Standing;
    const auto any = [&](auto holds) {
        return std::ranges::any_of(plot.panels, [&](const auto& panel) { return std::ranges::any_of(panel.values, holds); });
    };
    const auto apart = [](const report::HistoryValue& value) { return value.mark == report::HistoryMark::Apart; };
    const auto place = [&] { return Point{at.x + tools.layout.size(SizeRole::ExcludedHalf), at.y - pt(half_figure)}; };
    struct Symbol {
        std::vector<Standing> standings;
        std::string_view words;
    };
    const Symbol symbols[] = {
        {{Standing::Inside, Standing::InsideByLess}, "inside"},
        {{Standing::Undecided}, "undecided"},
        {{Standing::Outside, Standing::OutsideByLess, Standing::NotAccepted}, "outside or not accepted"},
        {{Standing::NoLimit, Standing::NotEvaluated}, "no verdict"},
    };
    for (const Symbol& symbol : symbols) {
        const auto has = [&](const report::HistoryValue& value) {
            return !apart(value) && std::ranges::find(symbol.standings, value.standing) != symbol.standings.end();
        };
        if (any(has)) entry(items, tools, marks::history_mark(tools, symbol.standings.front(), place()), symbol.words, at);
    }
    const auto leads = [](const report::HistoryPanel& panel) {
        return std::ranges::any_of(panel.values, [&](const auto& value) { return marks::found_before(panel, value) != nullptr; });
    };
    if (std::ranges::any_of(plot.panels, leads)) {
        constexpr double arrow_length = 14, arrow_room = 17;
        const Point from{at.x, at.y - pt(half_figure)};
        entry(items, tools, marks::history_arrow(tools, from, {from.x + pt(arrow_length), from.y}), "from found to left", at, arrow_room);
    }
    if (!any(apart)) return;
    frame::Group crossed;
    cross(crossed.items, tools, place());
    entry(items, tools, std::move(crossed), "not in the trend", at);
}

/// What marks and strokes are: only those that are drawn.
frame::Group key_of(const Tools& tools, const report::HistoryPlot& plot, Point& at, Paper width) {
    const Paper left = at.x;
    frame::Group group = grouped(frame::Role::Paragraph, {});
    add_mark_entries(group.items, tools, plot, at);
    for (const text::Line& one :
         tools.shaper.paragraph(pieces(tools, strokes_of(plot), {.colour = ColourRole::Grey}), text_style(tools, {}), width)) {
        at = {left, at.y + tools.layout.type(TypeRole::Small).leading};
        for (auto& run : text::placed(one, at)) group.items.emplace_back(std::move(run));
    }
    return group;
}

std::size_t columns_of(const report::HistoryPlot& plot) { return plot.panels.size() > 1 ? 2 : 1; }

HistoryFigure figure_of(const Tools& tools, const report::HistoryPlot& plot, Paper left, Paper right, Paper top, Paper panel_height) {
    const std::size_t columns = columns_of(plot);
    const Paper width = (right - left - pt(column_gap) * static_cast<double>(columns - 1)) / static_cast<double>(columns);
    std::vector<PanelScale> scaled;
    Paper room = tools.layout.size(SizeRole::TickLabelRoom);
    for (const report::HistoryPanel& panel : plot.panels) {
        Ticks ticks = history_ticks(panel);
        std::vector<text::Line> head = head_of(tools, panel, width);
        std::vector<text::Line> words = words_below_of(tools, panel, ticks, width - room);
        scaled.push_back({std::move(ticks), std::move(head), std::move(words)});
        room = std::max(room, marks::y_label_room(tools, scaled.back().ticks));
    }
    HistoryFigure made{{}, top};
    for (std::size_t first = 0; first < plot.panels.size(); first += columns) {
        const std::size_t end = std::min(first + columns, plot.panels.size());
        std::size_t head_lines = 0, word_lines = 0;
        for (std::size_t i = first; i < end; ++i) {
            head_lines = std::max(head_lines, scaled[i].head.size());
            word_lines = std::max(word_lines, scaled[i].words.size());
        }
        const Paper leading = tools.layout.type(TypeRole::Small).leading;
        const Paper head = leading * static_cast<double>(head_lines - 1) + pt(head_above) * 1.5;
        const Paper height = head + panel_height + pt(axis_room) + leading * static_cast<double>(word_lines);
        for (std::size_t i = first; i < end; ++i) {
            const Paper x = left + (width + pt(column_gap)) * static_cast<double>(i - first);
            made.items.emplace_back(panel_group(tools, plot.panels[i], scaled[i], Scale(plot.from, plot.to, x + room, x + width),
                                                {x, made.bottom, width, height}, head_lines, panel_height));
        }
        made.bottom += height + (end < plot.panels.size() ? pt(row_gap) : Paper{});
    }
    made.bottom += pt(key_below);
    Point at{left, made.bottom};
    made.items.emplace_back(key_of(tools, plot, at, right - left));
    made.bottom = at.y;
    return made;
}

}  // namespace

HistoryFigure history_figure(const Tools& tools, const report::HistoryPlot& plot, Paper left, Paper right, Paper top,
                             std::optional<Paper> lowest) {
    HistoryFigure usual = figure_of(tools, plot, left, right, top, pt(usual_panel_height));
    if (!lowest || usual.bottom <= *lowest || plot.panels.empty()) return usual;
    const std::size_t columns = columns_of(plot), rows = (plot.panels.size() + columns - 1) / columns;
    const Paper over = (usual.bottom - *lowest) / static_cast<double>(rows);
    return figure_of(tools, plot, left, right, top, std::max(pt(least_panel_height), pt(usual_panel_height) - over));
}

}  // namespace wayfolio::plot
