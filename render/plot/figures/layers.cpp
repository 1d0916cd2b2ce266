#include "plot/figures/layers.hpp"

#include "plot/approach_roles.hpp"
#include "plot/marks/curves.hpp"
#include "plot/spacing.hpp"

#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace wayfolio::plot {
namespace {

/// A band's outline runs along its upper edge and back along the lower: its inside is taken in upright strokes.
void take_band(LabelPlaces& places, const std::vector<Point>& outline) {
    const std::size_t half = outline.size() / 2;
    constexpr double step = 3;
    for (std::size_t i = 0; i + 1 < half; ++i) {
        const Point &a = outline[i], &b = outline[i + 1], &c = outline[outline.size() - 1 - i], &d = outline[outline.size() - 2 - i];
        const int strokes = 1 + static_cast<int>((b.x - a.x).in(units::point) / step);
        for (int k = 0; k <= strokes; ++k) {
            const double share = static_cast<double>(k) / strokes;
            const Paper x = a.x + (b.x - a.x) * share, top = a.y + (b.y - a.y) * share, bottom = c.y + (d.y - c.y) * share;
            places.take_tint({x - pt(line_air), top, pt(2 * line_air), bottom - top});
        }
    }
}

void take_means(LabelPlaces& places, const std::vector<evaluate::TargetEvaluation>& targets, const Area& area, Paper marker) {
    for (const auto approach : document::both_approaches) {
        for (const auto& stretch : marks::stretches(targets, area, approach)) {
            for (std::size_t i = 1; i < stretch.size(); ++i) places.take_line(stretch[i - 1], stretch[i]);
            for (const Point& at : stretch) places.take({at.x - marker, at.y - marker, marker * 2, marker * 2});
        }
    }
}

/// What lies close along the axis is taken in columns, from its least to its greatest: a trace has up to a million samples.
void take_trace(LabelPlaces& places, const std::vector<document::TraceSample>& trace, const Area& area) {
    constexpr double column = 3;
    std::map<int, std::pair<Paper, Paper>> columns;
    std::optional<Point> before;
    for (const document::TraceSample& sample : trace) {
        const Point at = area.at(sample.position, sample.value);
        if (before && abs(at.x - before->x) > pt(column)) places.take_line(*before, at);
        const int which = static_cast<int>(std::floor((at.x - area.left()).in(units::point) / column));
        auto& [top, bottom] = columns.try_emplace(which, at.y, at.y).first->second;
        top = std::min(top, at.y);
        bottom = std::max(bottom, at.y);
        before = at;
    }
    for (const auto& [which, ends] : columns)
        places.take({area.left() + pt(column * which), ends.first - pt(line_air), pt(column), ends.second - ends.first + pt(2 * line_air)});
}

/// Where the word for one direction may stand: above the upper curve's band, below the lower one's.
std::vector<Rect> label_wishes(const report::DeviationPlot& plot, const Area& area, report::Approach approach, Paper width) {
    const auto across = approach == report::Approach::Positive ? report::Approach::Negative : report::Approach::Positive;
    std::vector<Rect> wishes;
    for (const double out : {0.0, 4.0, 8.0}) {
        for (std::size_t i = 1; i + 1 < plot.targets.size(); ++i) {
            const auto& target = plot.targets[i];
            const auto& [n, own, s, R] = target.one_way[approach];
            if (!own) continue;
            const auto& other = target.one_way[across].mean;
            const bool upper = !other || *own >= *other;
            const Deviation half_band = s ? *s * 2.0 : *own * 0.0;
            const Paper edge = area.up(upper ? *own + half_band : *own - half_band);
            constexpr double above = label_above_line, below = label_below_line;
            const Paper baseline = edge + pt(upper ? -above - out : below + out);
            wishes.push_back({area.across(target.position) - width / 2, baseline - pt(small_figure_top), width, pt(label_height)});
        }
    }
    return wishes;
}

}  // namespace

LabelPlaces places_left(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    constexpr double above_plot = 14, past_plot = 2;  // labels may reach that far out
    LabelPlaces places({area.left() + beside_axis, area.top() - pt(above_plot), area.right() - area.left() + pt(past_plot) - beside_axis,
                        area.bottom() - area.top() + pt(above_plot)});
    take_means(places, plot.targets, area, tools.layout.size(SizeRole::MarkerRadius));
    take_trace(places, plot.trace, area);
    if (plot.pale_means) take_means(places, plot.pale_means->targets, area, Paper{});
    for (const auto approach : document::both_approaches) {
        for (const auto& outline : marks::band_outlines(plot, area, approach)) take_band(places, outline);
    }
    if (area.y.low() < 0 && area.y.high() > 0) places.take_line({area.left(), area.y.map(0)}, {area.right(), area.y.map(0)});
    for (const marks::ExcludedPlace& place : marks::excluded_places(tools, plot, area)) places.take(place.box);
    return places;
}

void data_layers(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Area& area, Paper most_radius) {
    using report::Approach;
    const Paper radius = marks::marker_radius(most_radius, area.right() - area.left(), plot.targets.size());
    into.emplace_back(marks::band(tools, plot, area, Approach::Negative));
    into.emplace_back(marks::band(tools, plot, area, Approach::Positive));
    into.emplace_back(marks::band_overlap(tools, plot, area));
    for (const Approach approach : {Approach::Negative, Approach::Positive}) {
        into.emplace_back(marks::band_hatch(tools, plot, area, approach));
        into.emplace_back(marks::band_edges(tools, plot, area, approach));
    }
    into.emplace_back(marks::runs(tools, plot, area));
    if (plot.pale_means) into.emplace_back(marks::pale_means(tools, *plot.pale_means, area));
    into.emplace_back(marks::trace(tools, plot, area));
    into.emplace_back(marks::bidirectional_line(tools, plot, area, radius));
    into.emplace_back(marks::mean_line(tools, plot, area, Approach::Negative));
    into.emplace_back(marks::mean_line(tools, plot, area, Approach::Positive));
    into.emplace_back(marks::markers(tools, plot, area, Approach::Negative, radius));
    into.emplace_back(marks::markers(tools, plot, area, Approach::Positive, radius));
    into.emplace_back(marks::excluded(tools, plot, area));
}

void direct_labels(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Area& area, LabelPlaces& places) {
    for (const auto approach : document::both_approaches) {
        const std::string side(word(approach));
        const auto box = places.place(label_wishes(plot, area, approach, width_of(tools, side, {})));
        if (box) put(into, tools, side, {.colour = roles_of(approach).label}, {box->left, box->top + pt(small_figure_top)});
    }
}

}  // namespace wayfolio::plot
