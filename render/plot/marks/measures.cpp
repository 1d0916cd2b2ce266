#include "plot/marks/measures.hpp"

#include "plot/spacing.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::plot::marks {
namespace {

constexpr double value_above = 4, value_below = 10.5;       // baseline of a label to the tick that it names
constexpr double beside_tick = 2.5, farthest = 8;  // from the end of a tick to its label

/// The box of a label with this baseline.
Rect label_box(Paper left, Paper baseline, Paper width) { return {left, baseline - pt(small_figure_top), width, pt(label_height)}; }
Point baseline_in(const Rect& box) { return {box.left, box.top + pt(small_figure_top)}; }

struct SettingLabel {
    Paper highest, lowest;  ///< of the levels that it names
    report::Text words;
};

/// Target numbers count from 1 on a page; symbols are joined: "8: A, E, M".
std::map<std::pair<std::size_t, bool>, SettingLabel> labels_of(const report::DeviationPlot& plot, const Area& area) {
    std::map<std::pair<std::size_t, bool>, SettingLabel> labels;
    for (const report::SettingTick& tick : plot.ticks) {
        const Paper level = area.up(tick.level);
        SettingLabel& label = labels.try_emplace({tick.target, tick.above}, SettingLabel{level, level, {}}).first->second;
        if (label.words.empty()) label.words.plain(std::to_string(tick.target + 1) + (tick.symbol.empty() ? "" : ":\u00a0"));
        else if (!tick.symbol.empty()) label.words.plain(",\u00a0");
        label.words.symbol(tick.symbol);
        label.highest = std::min(label.highest, level);
        label.lowest = std::max(label.lowest, level);
    }
    return labels;
}

/// Where a label may stand, best first: level with one of its ticks, close to either end of it; then above or below the outermost one and
/// over the band. Along the axis never further than `farthest` from its ticks.
std::vector<Rect> wishes(const SettingLabel& label, Paper left, Paper right, Paper width, bool above) {
    std::vector<Rect> all;
    const Paper outer = above ? label.highest : label.lowest, inner = above ? label.lowest : label.highest;
    const auto beside = [&](Paper level, double gap, double raise) {
        const Paper baseline = level + pt(half_figure - raise);
        all.push_back(label_box(left - pt(gap) - width, baseline, width));
        all.push_back(label_box(right + pt(gap), baseline, width));
    };
    beside(outer, beside_tick, 0);
    beside(inner, beside_tick, 0);
    constexpr double highest = 36, step = 2;
    std::vector<Paper> starts;
    for (const double aside : {0.0, -6.0, 6.0, -12.0, 12.0}) starts.push_back((left + right) / 2 - width / 2 + pt(aside));
    starts.insert(starts.end(), {left + beside_axis, right - width});  // at the ends of the axis there is room on one side only
    for (double out = 0; out <= highest; out += step)
        for (const Paper start : starts) {
            const Paper baseline = above ? outer - pt(value_above + out) : outer + pt(value_below + out);
            all.push_back(label_box(start, baseline, width));
        }
    for (const double raise : {3.0, -3.0, 6.0, -6.0})
        for (const double gap : {beside_tick, farthest / 2, farthest - 0.5}) beside(outer, gap, raise);
    return all;
}

/// A label stands on the same side of a limit line as its tick.
void leave_limits_alone(std::vector<Rect>& wanted, const report::DeviationPlot& plot, const Area& area, Paper level) {
    if (!plot.limit || !limit_fits(plot)) return;
    for (const Deviation& half : {plot.limit->width / 2.0, plot.limit->width / -2.0}) {
        const Paper limit = area.up(plot.limit->centre + half);
        std::erase_if(wanted, [&](const Rect& box) { return (box.top + box.height / 2 < limit) != (level < limit); });
    }
}

}  // namespace

frame::Group brackets(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Paper first) {
    frame::Group group{.id = "brackets"};
    const Paper tick = tools.layout.size(SizeRole::BracketTick);
    Paper x = first;
    for (const report::Bracket& bracket : plot.brackets) {
        const Paper top = area.up(bracket.high), bottom = area.up(bracket.low);
        const std::vector<Point> outline{{x - tick, top}, {x, top}, {x, bottom}, {x - tick, bottom}};
        group.items.emplace_back(polyline(tools, PenRole::Bracket, outline));
        constexpr double above_bracket = 4;
        if (!bracket.symbol.empty())
            put(group.items, tools, report::Text().symbol(bracket.symbol), {}, {x, top - pt(above_bracket)}, Align::Centre);
        x += tools.layout.size(SizeRole::BracketStep);
    }
    return group;
}

frame::Group setting_ticks(const Tools& tools, const report::DeviationPlot& plot, const Area& area, LabelPlaces& places) {
    frame::Group group{.id = "setting-ticks"};
    const Paper half = tools.layout.size(SizeRole::SettingTickHalf);
    for (const report::SettingTick& tick : plot.ticks) {
        const Point at = area.at(plot.targets[tick.target].position, tick.level);
        // At the ends of the axis the tick stays inside the plot.
        const Paper left = std::max(at.x - half, area.left()), right = std::min(at.x + half, area.right());
        group.items.emplace_back(line(tools, PenRole::SettingTick, {left, at.y}, {right, at.y}));
        places.take_level(left, right, at.y);
    }
    for (const auto& [key, label] : labels_of(plot, area)) {
        const auto& [target, above] = key;
        const Paper width = width_of(tools, label.words, {}), x = area.across(plot.targets[target].position);
        const Paper left = std::max(x - half, area.left()), right = std::min(x + half, area.right());
        const std::vector<Rect> anywhere = wishes(label, left, right, width, above);
        std::vector<Rect> wanted = anywhere;
        leave_limits_alone(wanted, plot, area, above ? label.highest : label.lowest);
        auto box = places.place(wanted);
        // Beyond the limit a number is read; over curves and bands it is not.
        if (!box) box = places.place(anywhere);
        if (!box) box = places.place_over_tints(wanted);
        if (!box) box = places.place_over_soft(wanted);
        if (box) put(group.items, tools, label.words, {}, baseline_in(*box));
    }
    return group;
}

frame::Group limit_lines(const Tools& tools, const report::DeviationPlot& plot, const Area& area, LimitLabel label, LabelPlaces& places) {
    frame::Group group{.id = "limits"};
    if (!plot.limit) return group;
    // Over more than this of a narrow plot the long label would stand on the names of the curves.
    constexpr double most_of_plot = 0.6;
    const bool has_room = width_of(tools, plot.limit->label, {}) <= (area.right() - area.left()) * most_of_plot;
    const report::Text& words = label == LimitLabel::Long && has_room ? plot.limit->label : plot.limit->short_label;
    const Paper width = width_of(tools, words, {});
    const bool fits = limit_fits(plot);
    const Paper upper = fits ? area.up(plot.limit->centre + plot.limit->width / 2.0) : area.top();
    const Paper lower = area.up(plot.limit->centre - plot.limit->width / 2.0);
    if (fits) {
        for (const Paper y : {upper, lower}) {
            group.items.emplace_back(line(tools, PenRole::Limit, {area.left(), y}, {area.right(), y}));
            places.take_firmly({area.left(), y - pt(line_air), area.right() - area.left(), pt(2 * line_air)});
        }
    }
    const auto boxed = [&](Paper from, Paper baseline) { return label_box(from, baseline, width); };
    const Paper right = area.right() - width, left = area.left() + beside_axis;
    const Paper above = fits ? upper - pt(label_above_line) : upper + pt(label_height), below = lower + pt(label_below_line);
    std::vector<Rect> wanted{boxed(right, above), boxed(left, above)};
    if (label == LimitLabel::Short) std::swap(wanted[0], wanted[1]);
    if (fits) wanted.insert(wanted.end(), {boxed(right, below), boxed(left, below), boxed((left + right) / 2, above)});
    const Rect box = places.place(wanted).value_or(wanted.front());
    put(group.items, tools, words, {}, baseline_in(box));
    return group;
}

}  // namespace wayfolio::plot::marks
