#include "plot/figures/figures.hpp"

#include "plot/label_places.hpp"
#include "plot/marks/axes.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

namespace wayfolio::plot {
namespace {

constexpr double largest_radius = 1.8, zero_tick = 3, past_foot = 2;

/// Of the curve and of no change.
Extent changes_of(const report::StatePair& pair) {
    Extent extent;
    extent.add(0);
    for (const auto& [position, change] : pair.difference.curve) extent.add(change.in(pair.second.unit));
    return extent;
}

/// The plot area of the strip: as high as the panels in the same unit, its middle on the middle of the curve.
Area strip_area(const report::StatePair& pair, const PanelPlace& place) {
    const Extent changes = changes_of(pair);
    const double span = place.ticks.high() - place.ticks.low(), middle = (*changes.low + *changes.high) / 2;
    return {.x = Scale(*place.positions.low, *place.positions.high, place.plot_left, place.right),
            .y = Scale(middle - span / 2, middle + span / 2, place.top + place.height, place.top),
            .position_unit = pair.second.position_unit,
            .unit = pair.second.unit};
}

void draw_band(std::vector<Item>& into, const Tools& tools, const report::StateDifference& difference, const Area& area) {
    if (!difference.U) return;
    const Paper top = std::max(area.up(*difference.U), area.top()), bottom = std::min(area.up(-*difference.U), area.bottom());
    into.emplace_back(rectangle(tools, ColourRole::ValueBar, {area.left(), top, area.right() - area.left(), bottom - top}));
}

/// The words of the largest change: where they touch neither curve nor line, on its side of no change if there is room.
void name_largest(std::vector<Item>& into, const Tools& tools, const report::StateDifference& difference, const Area& area, Point dot) {
    LabelPlaces places({area.left(), area.top() - pt(label_height), area.right() - area.left(),
                        area.bottom() - area.top() + pt(label_height + past_foot)});
    for (std::size_t i = 1; i < difference.curve.size(); ++i)
        places.take_line(area.at(difference.curve[i - 1].first, difference.curve[i - 1].second),
                         area.at(difference.curve[i].first, difference.curve[i].second));
    places.take_line({area.left(), area.y.map(0)}, {area.right(), area.y.map(0)});
    const Paper width = width_of(tools, difference.words, {});
    const bool up = dot.y <= area.y.map(0);
    // Over the band where the change is within it: its edges may run through no word.
    Paper above = dot.y, below = dot.y;
    if (difference.U && dot.y > area.up(*difference.U) && dot.y < area.up(-*difference.U)) {
        above = area.up(*difference.U);
        below = area.up(-*difference.U);
    }
    std::vector<Rect> wishes;
    for (const bool over : {up, !up})
        for (const double out : {0.0, 4.0, 8.0, 14.0, 20.0})
            for (const double aside : {0.5, 1.0, 0.0}) {
                const Paper left = std::clamp(dot.x - width * aside, area.left(), std::max(area.left(), area.right() - width));
                const Paper baseline = over ? above - pt(label_above_line + out) : below + pt(label_below_line + out);
                wishes.push_back({left, baseline - pt(small_figure_top), width, pt(label_height)});
            }
    if (const auto box = places.place(wishes)) put(into, tools, difference.words, {}, {box->left, box->top + pt(small_figure_top)});
    else put(into, tools, difference.words, {}, {area.right() - width, area.top() - pt(past_foot)});
}

}  // namespace

Ticks pair_ticks(const report::StatePair& pair, int most) {
    Extent all;
    for (const auto* plot : {&pair.first, &pair.second}) {
        const Extent one = shown_extent(*plot);
        all.add(*one.low);
        all.add(*one.high);
    }
    const double missing = changes_of(pair).width() - all.width();
    if (missing > 0) {
        all.add(*all.low - missing / 2);
        all.add(*all.high + missing / 2);
    }
    return enclosing_ticks(*all.low, *all.high, most);
}

DrawnFigure difference_figure(const Tools& tools, const report::StatePair& pair, const PanelPlace& place) {
    const Area area = strip_area(pair, place);
    const report::StateDifference& difference = pair.difference;
    std::vector<Item> items;
    draw_band(items, tools, difference, area);
    items.emplace_back(marks::zero_line(tools, area));
    const Paper zero = area.y.map(0);
    put(items, tools, "0", {}, {area.left() - pt(number_beside_axis), zero + pt(half_figure)}, Align::Right);
    items.emplace_back(line(tools, PenRole::Tick, {area.left() - pt(zero_tick), zero}, {area.left(), zero}));
    items.emplace_back(marks::x_axis(tools, area, place.positions, place.x_title, place.left,
                                     place.x_numbers ? marks::Labels::Numbers : marks::Labels::None));
    if (difference.curve.empty()) {
        put(items, tools, difference.words, {.colour = ColourRole::Grey}, {area.left(), zero - pt(label_above_line)});
    } else {
        std::vector<Point> points;
        for (const auto& [position, change] : difference.curve) points.push_back(area.at(position, change));
        items.emplace_back(polyline(tools, PenRole::Curve, points));
        items.emplace_back(disc(tools, ColourRole::Ink, points[difference.largest], pt(largest_radius)));
        name_largest(items, tools, difference, area, points[difference.largest]);
    }
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(items)),
                      .bottom = place.top + place.height + pt(place.x_numbers ? axis_room : 0),
                      .bracket_top = place.top};
    drawn.group.alternative = difference.alternative;
    drawn.group.id = "difference-" + pair.second.series_id;
    drawn.group.box = Rect{place.left, place.top - pt(title_ascent), place.right - place.left,
                           drawn.bottom - place.top + pt(title_ascent)};
    return drawn;
}

}  // namespace wayfolio::plot
