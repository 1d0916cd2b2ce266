#include "plot/figures/figures.hpp"

#include "plot/shapes.hpp"
#include "plot/spacing.hpp"
#include "units/number_text.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::plot {
namespace {

using report::PartOf;
using report::UncertaintyRow;

constexpr double scale_reach = 1.5;  // limits
constexpr double half_bar = 4, half_limit = 7, notch = 1, hatch_apart = 1.7, beyond_air = 2;

/// Drawn from one place to another along the bar's middle.
Rect stretch(Paper from, Paper to, Paper middle) { return {from, middle - pt(half_bar), to - from, pt(half_bar * 2)}; }

frame::Path outline(const Tools& tools, const Rect& box) {
    const std::array<Point, 5> corners{Point{box.left, box.top}, Point{box.right(), box.top}, Point{box.right(), box.bottom()},
                                       Point{box.left, box.bottom()}, Point{box.left, box.top}};
    return polyline(tools, PenRole::PartOutline, corners);
}

void fill_hatched(std::vector<Item>& into, const Tools& tools, const Rect& box, HatchSlope slope) {
    const std::array<Point, 4> corners{Point{box.left, box.top}, Point{box.right(), box.top}, Point{box.right(), box.bottom()},
                                       Point{box.left, box.bottom()}};
    into.emplace_back(rectangle(tools, ColourRole::Paper, box));
    into.emplace_back(hatch(stroke(tools, PenRole::PartHatch), corners, pt(hatch_apart), slope));
}

void fill_part(std::vector<Item>& into, const Tools& tools, PartOf of, const Rect& box) {
    switch (of) {
        case PartOf::Instrument: into.emplace_back(rectangle(tools, ColourRole::PartInstrument, box)); break;
        case PartOf::Expansion: into.emplace_back(rectangle(tools, ColourRole::PartExpansion, box)); break;
        case PartOf::Listed: into.emplace_back(rectangle(tools, ColourRole::PartListed, box)); break;
        case PartOf::Drift: fill_hatched(into, tools, box, HatchSlope::Rising); break;
        case PartOf::Scatter: into.emplace_back(rectangle(tools, ColourRole::Paper, box)); break;
        case PartOf::KnownBias: into.emplace_back(rectangle(tools, ColourRole::Ink, box)); break;
    }
    into.emplace_back(outline(tools, box));
}

/// U from `from` to `to`, in its parts; hatched the other way where it has none. What lies beyond `end` is not drawn.
void draw_parts(std::vector<Item>& into, const Tools& tools, const UncertaintyRow& row, const Rect& whole, Paper end) {
    if (row.parts.empty()) {
        const Rect seen{whole.left, whole.top, std::min(whole.right(), end) - whole.left, whole.height};
        fill_hatched(into, tools, seen, HatchSlope::Falling);
        into.emplace_back(outline(tools, seen));
        return;
    }
    double done = 0;
    for (const report::UncertaintyPart& part : row.parts) {
        const Paper from = whole.left + whole.width * done, to = std::min(whole.left + whole.width * (done + part.share), end);
        done += part.share;
        if (from < to) fill_part(into, tools, part.of, {from, whole.top, to - from, whole.height});
    }
}

/// A value so far over its limit that it is beyond the scale: told in limits, on its bar.
void name_beyond(std::vector<Item>& into, const Tools& tools, double value_of_limit, const UncertaintyPlace& place) {
    const std::string words =
        units::number(value_of_limit, 1, {tools.layout.decimal_mark}) + std::string(units::thin_space) + "\u00d7";
    put(into, tools, words, {}, {place.right - pt(beyond_air), place.middle + pt(half_figure)}, Align::Right);
}

}  // namespace

Paper uncertainty_limit(const UncertaintyPlace& place) { return place.left + (place.right - place.left) / scale_reach; }

frame::Group uncertainty_bar(const Tools& tools, const UncertaintyRow& row, const UncertaintyPlace& place) {
    frame::Group group;
    const auto x = [&](double of_limit) { return place.left + (place.right - place.left) * (of_limit / scale_reach); };
    if (row.value_of_limit && row.U_of_limit) {
        const double value = *row.value_of_limit, U = *row.U_of_limit;
        group.items.emplace_back(line(tools, PenRole::ZeroLine, {place.left, place.middle}, {place.right, place.middle}));
        group.items.emplace_back(
            rectangle(tools, ColourRole::ValueBar, stretch(place.left, std::min(x(value), place.right), place.middle)));
        if (value > scale_reach) name_beyond(group.items, tools, value, place);
        else draw_parts(group.items, tools, row, stretch(x(value), x(value + U), place.middle), place.right);
        if (value > U && value - U < scale_reach) {
            const Rect cut = stretch(x(value - U) - pt(notch / 2), x(value - U) + pt(notch / 2), place.middle);
            group.items.emplace_back(rectangle(tools, ColourRole::Paper, cut));
        }
    }
    if (row.has_limit && row.U_of_limit) {
        const Paper limit = uncertainty_limit(place);
        group.items.emplace_back(
            line(tools, PenRole::SymbolLimit, {limit, place.middle - pt(half_limit)}, {limit, place.middle + pt(half_limit)}));
    }
    if (!row.parts.empty())
        draw_parts(group.items, tools, row, stretch(place.split_left, place.split_right, place.middle), place.split_right);
    return group;
}

frame::Group uncertainty_swatch(const Tools& tools, PartOf of, const Rect& box) {
    frame::Group group;
    fill_part(group.items, tools, of, box);
    return group;
}

}  // namespace wayfolio::plot
