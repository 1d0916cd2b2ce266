#include "plot/marks/measures.hpp"

#include "plot/spacing.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::plot::marks {
namespace {

constexpr double value_above = 5, value_below = 11;  // baseline of a label to the tick that it names

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

/// Label boxes near `centre`, nearest first: straight above or below, then further out, then aside. The steps are chosen by eye: a third to
/// a half of a line out, about a letter or two aside.
std::vector<Rect> wishes(Paper centre, Paper baseline, Paper width, bool above) {
    std::vector<Rect> all;
    for (const double out : {0.0, 4.0, 8.0, 13.0, 18.0, 24.0, 30.0, 38.0, 46.0}) {
        for (const double aside : {0.0, -8.0, 8.0, -16.0, 16.0, -26.0, 26.0}) {
            const Paper y = baseline + pt(above ? -out : out);
            all.push_back(label_box(centre - width / 2 + pt(aside), y, width));
        }
    }
    return all;
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
        if (!plot.brackets.empty() && right < area.right()) {
            group.items.emplace_back(line(tools, PenRole::Leader, {right, at.y}, {area.right(), at.y}));
        }
        places.take_level(left, right, at.y);
    }
    for (const auto& [key, label] : labels_of(plot, area)) {
        const auto& [target, above] = key;
        const Paper width = width_of(tools, label.words, {});
        const Paper baseline = above ? label.highest - pt(value_above) : label.lowest + pt(value_below);
        Paper centre = area.across(plot.targets[target].position);
        centre = std::clamp(centre, area.left() + beside_axis + width / 2, area.right() - width / 2);
        const auto found = places.place(wishes(centre, baseline, width, above));
        const Rect box = found.value_or(wishes(centre, baseline, width, above).front());
        put(group.items, tools, label.words, {}, baseline_in(box));
    }
    return group;
}

frame::Group limit_lines(const Tools& tools, const report::DeviationPlot& plot, const Area& area, LimitLabel label, LabelPlaces& places) {
    frame::Group group{.id = "limits"};
    if (!plot.limit) return group;
    const report::Text& words = label == LimitLabel::Long ? plot.limit->label : plot.limit->short_label;
    const Paper width = width_of(tools, words, {});
    const bool fits = limit_fits(plot);
    const Paper upper = fits ? area.up(plot.limit->centre + plot.limit->width / 2.0) : area.top();
    const Paper lower = area.up(plot.limit->centre - plot.limit->width / 2.0);
    if (fits) {
        for (const Paper y : {upper, lower}) {
            group.items.emplace_back(line(tools, PenRole::Limit, {area.left(), y}, {area.right(), y}));
            places.take_level(area.left(), area.right(), y);
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
