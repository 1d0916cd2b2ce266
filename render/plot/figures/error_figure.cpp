#include "plot/figures/figures.hpp"

#include "plot/figures/layers.hpp"
#include "plot/marks/axes.hpp"
#include "plot/marks/measures.hpp"
#include "plot/marks/stems.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

namespace wayfolio::plot {
namespace {

constexpr double bracket_room = 36;   // right of the plot: three brackets and their letters
constexpr double main_title_above = 12, strip_title_above = 10, title_room = 20;

/// Horizontal frame shared by the main plot and its strips.
struct Columns {
    Paper left, plot_left, plot_right;
    Extent positions;
    report::Text x_title;
};

report::Text x_title_of(const report::DeviationPlot& plot) {
    return report::Text(plot.axis_name + " / " + std::string(plot.position_unit.symbol));
}

Area area_of(const Columns& columns, const report::DeviationPlot& plot, const Ticks& ticks, Paper top, Paper height) {
    return {.x = Scale(*columns.positions.low, *columns.positions.high, columns.plot_left, columns.plot_right),
            .y = Scale(ticks.low(), ticks.high(), top + height, top),
            .position_unit = plot.position_unit,
            .unit = plot.unit};
}

Ticks strip_ticks(const report::DeviationPlot& plot, Strip strip) {
    Extent extent;
    extent.add(0);
    for (const auto& target : plot.targets) {
        if (strip == Strip::Reversal) {
            extent.add(target.reversal, plot.unit);
        } else {
            for (const auto approach : document::both_approaches) extent.add(target.one_way[approach].R, plot.unit);
        }
    }
    constexpr int most = 3;
    if (extent.width() > 0) return enclosing_ticks(*extent.low, *extent.high, most);
    return enclosing_ticks(0, 1, 2);
}

void strip_bracket(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    std::optional<Deviation> largest;
    for (const auto& target : plot.targets) {
        if (target.reversal && (!largest || abs(*target.reversal) > abs(*largest))) largest = target.reversal;
    }
    if (!largest) return;
    const Paper x = area.right() + pt(first_bracket), tick = tools.layout.size(SizeRole::BracketTick);
    const Paper zero = area.y.map(0), end = area.up(*largest);
    const std::vector<Point> outline{{x - tick, zero}, {x, zero}, {x, end}, {x - tick, end}};
    into.emplace_back(polyline(tools, PenRole::Bracket, outline));
    put(into, tools, report::Text().symbol("B"), {}, {x + pt(letter_beside_mark), (zero + end) / 2 + pt(half_figure)});
}

void draw_strip(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, Strip strip, const Columns& columns,
                Paper top, Paper height, marks::Labels labels) {
    const Ticks ticks = strip_ticks(plot, strip);
    const Area area = area_of(columns, plot, ticks, top, height);
    const std::string unit = " / " + std::string(plot.unit.symbol);
    const report::Text title = strip == Strip::Reversal ? report::Text("Reversal value ").symbol("B\u1d62").plain(unit)
                                                        : report::Text("Repeatability 4\u202f").symbol("s\u1d62").plain(unit);
    put(into, tools, title, {.colour = ColourRole::Grey}, {columns.left, top - pt(strip_title_above)});
    into.emplace_back(marks::y_axis(tools, area, ticks, marks::Labels::Numbers));
    const Paper zero = area.y.map(0);
    into.emplace_back(line(tools, labels == marks::Labels::Numbers && zero == area.bottom() ? PenRole::Axis : PenRole::QuietAxis,
                           {area.left(), zero}, {area.right(), zero}));
    if (labels == marks::Labels::Numbers)
        into.emplace_back(marks::x_axis(tools, area, columns.positions, columns.x_title, columns.left, labels));
    if (strip == Strip::Reversal) {
        into.emplace_back(marks::reversal_stems(tools, plot, area));
        strip_bracket(into, tools, plot, area);
    } else {
        into.emplace_back(marks::repeatability_stems(tools, plot, area));
    }
}

Paper label_room(const Tools& tools, const report::DeviationPlot& plot, const std::vector<Strip>& strips, const Ticks& main) {
    Paper room = std::max(tools.layout.size(SizeRole::TickLabelRoom), marks::y_label_room(tools, main));
    for (const Strip strip : strips) room = std::max(room, marks::y_label_room(tools, strip_ticks(plot, strip)));
    // The title of the x axis stands left of its first number; a long one does without that number instead.
    constexpr double widest = 40;
    const Paper titled = marks::x_title_room(tools, x_title_of(plot), shared_positions({&plot}));
    return titled < pt(widest) ? std::max(room, titled) : room;
}

const std::string& alternative_of(const report::DeviationPlot& plot, Strip strip) {
    return strip == Strip::Reversal ? plot.reversal_alternative : plot.repeatability_alternative;
}

frame::Group finished(const report::DeviationPlot& plot, const std::string& alternative, std::vector<Item> items, Rect box) {
    frame::Group group = grouped(frame::Role::Figure, std::move(items));
    group.alternative = alternative;
    group.box = box;
    group.id = plot.series_id;
    return group;
}

Paper top_of_brackets(const report::DeviationPlot& plot, const Area& area) {
    Paper top = area.top();
    if (!plot.brackets.empty()) top = area.up(plot.brackets.back().high);
    return top;
}

}  // namespace

std::vector<Strip> supported_strips(const report::DeviationPlot& plot) {
    std::vector<Strip> strips;
    if (std::ranges::any_of(plot.targets, [](const auto& t) { return t.reversal.has_value(); })) strips.push_back(Strip::Reversal);
    if (std::ranges::any_of(plot.targets, [](const auto& t) { return t.one_way.positive.R || t.one_way.negative.R; }))
        strips.push_back(Strip::Repeatability);
    return strips;
}

Extent shared_positions(const std::vector<const report::DeviationPlot*>& plots) {
    Extent all;
    for (const auto* plot : plots) {
        const Extent one = position_extent(*plot);
        if (!one.low) continue;
        all.add(*one.low);
        all.add(*one.high);
    }
    if (!all.low) all.add(0);
    if (all.width() <= 0) {
        all.add(*all.low - 0.5);
        all.add(*all.high + 0.5);
    }
    constexpr double near_zero = 0.06;  // of the travel: then the axis starts at 0
    if (*all.low > 0 && *all.low < near_zero * all.width()) all.add(0);
    return all;
}

Ticks shared_ticks(const std::vector<const report::DeviationPlot*>& plots, int most) {
    Extent all;
    for (const auto* plot : plots) {
        const Extent one = shown_extent(*plot);
        all.add(*one.low);
        all.add(*one.high);
    }
    return enclosing_ticks(*all.low, *all.high, most);
}

DrawnFigure error_figure(const Tools& tools, const report::DeviationPlot& plot, const std::vector<Strip>& strips, const Rect& main,
                         CurveWords words) {
    const Paper left = main.left, right = main.right(), top = main.top, height = main.height;
    constexpr int most_ticks = 6;
    const Ticks ticks = shared_ticks({&plot}, most_ticks);
    const Columns columns{.left = left, .plot_left = left + label_room(tools, plot, strips, ticks), .plot_right = right - pt(bracket_room),
                          .positions = shared_positions({&plot}), .x_title = x_title_of(plot)};
    const Area area = area_of(columns, plot, ticks, top, height);
    LabelPlaces places = places_left(tools, plot, area);
    std::vector<Item> items;
    put(items, tools, plot.quantity + " / " + std::string(plot.unit.symbol), {.colour = ColourRole::Grey},
        {left, top - pt(main_title_above)});
    items.emplace_back(marks::y_axis(tools, area, ticks, marks::Labels::Numbers));
    items.emplace_back(marks::zero_line(tools, area));
    items.emplace_back(marks::limit_lines(tools, plot, area, marks::LimitLabel::Long, places));
    data_layers(items, tools, plot, area, tools.layout.size(SizeRole::MarkerRadius));
    items.emplace_back(marks::setting_ticks(tools, plot, area, places));
    if (words == CurveWords::AtCurves) direct_labels(items, tools, plot, area, places);
    items.emplace_back(marks::brackets(tools, plot, area, columns.plot_right + pt(first_bracket)));
    if (strips.empty()) items.emplace_back(marks::x_axis(tools, area, columns.positions, columns.x_title, left, marks::Labels::Numbers));

    DrawnFigure drawn{.group = {}, .bottom = top + height, .bracket_top = top_of_brackets(plot, area)};
    drawn.plot_left = columns.plot_left;
    drawn.plot_right = columns.plot_right;
    for (const Strip strip : strips) {
        const Paper strip_top = drawn.bottom + tools.layout.size(SizeRole::StripGap);
        const auto labels = strip == strips.back() ? marks::Labels::Numbers : marks::Labels::None;
        draw_strip(items, tools, plot, strip, columns, strip_top, tools.layout.size(SizeRole::StripHeight), labels);
        (strip == Strip::Reversal ? drawn.reversal_top : drawn.repeatability_top) = strip_top;
        drawn.bottom = strip_top + tools.layout.size(SizeRole::StripHeight);
    }
    drawn.bottom += pt(axis_room);
    std::string alternative = plot.alternative;
    for (const Strip strip : strips) alternative += " " + alternative_of(plot, strip);
    drawn.group = finished(plot, alternative, std::move(items),
                           {left, top - pt(title_room), right - left, drawn.bottom - top + pt(title_room)});
    return drawn;
}

Paper strips_height(const Tools& tools, std::size_t strips) {
    const Paper one = tools.layout.size(SizeRole::StripGap) + tools.layout.size(SizeRole::StripHeight);
    return one * static_cast<double>(strips) + pt(axis_room);
}

DrawnFigure strip_figure(const Tools& tools, const report::DeviationPlot& plot, Strip strip, Paper left, Paper right, Paper top,
                         Paper height) {
    const Columns columns{.left = left,
                          .plot_left = left + label_room(tools, plot, {strip}, strip_ticks(plot, strip)),
                          .plot_right = right - pt(bracket_room),
                          .positions = shared_positions({&plot}),
                          .x_title = x_title_of(plot)};
    std::vector<Item> items;
    draw_strip(items, tools, plot, strip, columns, top, height, marks::Labels::Numbers);
    DrawnFigure drawn{.group = {}, .bottom = top + height + pt(axis_room), .bracket_top = top};
    drawn.group = finished(plot, alternative_of(plot, strip), std::move(items),
                           {left, top - pt(title_room), right - left, drawn.bottom - top + pt(title_room)});
    return drawn;
}

}  // namespace wayfolio::plot
