#include "plot/figures/figures.hpp"

#include "plot/approach_roles.hpp"
#include "plot/label_places.hpp"
#include "plot/marks/curves.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"
#include "units/number_text.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::plot {
namespace {

using report::Approach;
using report::Text;

constexpr double scale_tick = 3.5, half_setting_tick = 4.5, first_bracket_below = 8, next_bracket = 11, beside_curve = 7;

/// The drawing of the rows of one page.
struct RowsSheet {
    const Tools& tools;
    const report::DeviationPlot& plot;
    const RowsPlace& place;
    Scale x;
    LabelPlaces places;
    std::vector<Item> items{};

    [[nodiscard]] Paper across(const Deviation& value) const { return x.map(value.in(plot.unit)); }
    [[nodiscard]] bool is_here(std::size_t target) const {
        return target >= place.first && target < place.first + place.levels.size();
    }
    [[nodiscard]] Paper level(std::size_t target) const { return place.levels[target - place.first]; }
    [[nodiscard]] const evaluate::TargetEvaluation& target_of(std::size_t row) const { return plot.targets[place.first + row]; }

    /// Stretches without a gap of one direction, or of the mean of both.
    [[nodiscard]] std::vector<std::vector<Point>> stretches(std::optional<Approach> approach) const {
        std::vector<std::vector<Point>> all(1);
        for (std::size_t row = 0; row < place.levels.size(); ++row) {
            if (const auto& mean = target_of(row).mean_of(approach)) all.back().push_back({across(*mean), place.levels[row]});
            else if (!all.back().empty()) all.emplace_back();
        }
        std::erase_if(all, [](const auto& stretch) { return stretch.empty(); });
        return all;
    }
    void upright(PenRole pen, Paper at) {
        items.emplace_back(line(tools, pen, {at, place.top}, {at, place.bottom}));
    }
    void put_at(const Text& words, const Look& look, const std::vector<Rect>& wishes) {
        auto box = places.place(wishes);
        if (!box) box = places.place_over_soft(wishes);
        if (box) put(items, tools, words, look, {box->left, box->top + pt(small_figure_top)});
    }
    [[nodiscard]] Rect box_at(Paper left, Paper middle, Paper width) const {
        return {left, middle - pt(label_height / 2), width, pt(label_height)};
    }
};

void draw_scale(RowsSheet& sheet) {
    for (const double value : sheet.place.ticks.values) {
        const Paper at = sheet.x.map(value);
        put(sheet.items, sheet.tools, units::number(value, sheet.place.ticks.decimals, {sheet.tools.layout.decimal_mark}), {},
            {at, sheet.place.head}, Align::Centre);
        sheet.items.emplace_back(line(sheet.tools, PenRole::Tick, {at, sheet.place.top}, {at, sheet.place.top + pt(scale_tick)}));
        sheet.places.take_line({at, sheet.place.top}, {at, sheet.place.top + pt(scale_tick)});
    }
    if (sheet.place.ticks.low() < 0 && sheet.place.ticks.high() > 0) sheet.upright(PenRole::ZeroLine, sheet.x.map(0));
}

void draw_limits(RowsSheet& sheet) {
    const auto& limit = sheet.plot.limit;
    if (!limit) return;
    const bool fits = limit_fits(sheet.plot);
    Paper inner = sheet.place.right;
    if (fits)
        for (const Deviation& half : {limit->width / -2.0, limit->width / 2.0}) {
            inner = sheet.across(limit->centre + half);
            sheet.upright(PenRole::Limit, inner);
            sheet.places.take_firmly({inner - pt(line_air), sheet.place.top, pt(2 * line_air), sheet.place.bottom - sheet.place.top});
        }
    std::vector<Rect> wishes;
    const Text& words = fits ? limit->label : limit->short_label;
    const Paper width = width_of(sheet.tools, words, {});
    // Not on the first row, over which the strokes of the scale reach.
    for (std::size_t row = 1; row < sheet.place.levels.size(); ++row)
        wishes.push_back(sheet.box_at(inner - pt(number_beside_axis) - width, sheet.place.levels[row], width));
    sheet.put_at(words, {}, wishes);
}

void draw_curves(RowsSheet& sheet) {
    const auto curve = [&](std::optional<Approach> approach, PenRole pen) {
        for (const auto& stretch : sheet.stretches(approach)) {
            sheet.items.emplace_back(polyline(sheet.tools, pen, stretch));
            for (std::size_t i = 1; i < stretch.size(); ++i) sheet.places.take_line(stretch[i - 1], stretch[i]);
        }
    };
    curve(std::nullopt, PenRole::Mean);
    for (const Approach approach : {Approach::Negative, Approach::Positive}) curve(approach, roles_of(approach).mean);
    const Paper radius = sheet.tools.layout.size(SizeRole::MarkerRadius);
    for (const Approach approach : {Approach::Negative, Approach::Positive})
        for (const auto& stretch : sheet.stretches(approach))
            for (const Point& at : stretch) {
                sheet.items.emplace_back(marks::marker(sheet.tools, approach, at, radius));
                sheet.places.take({at.x - radius, at.y - radius, radius * 2, radius * 2});
            }
    for (const report::ExcludedMark& mark : sheet.plot.excluded) {
        const auto same = std::ranges::find_if(sheet.plot.targets, [&](const auto& one) { return one.position == mark.position; });
        const auto target = static_cast<std::size_t>(same - sheet.plot.targets.begin());
        const Paper at = sheet.across(mark.value);
        if (!sheet.is_here(target) || at < sheet.place.left || at > sheet.place.right) continue;
        cross(sheet.items, sheet.tools, {at, sheet.level(target)});
        put(sheet.items, sheet.tools, mark.letter, {}, {at + pt(letter_beside_mark), sheet.level(target) + pt(letter_drop)});
    }
}

/// Left and right ends of what is drawn on a row.
std::pair<Paper, Paper> reach(const RowsSheet& sheet, std::size_t target) {
    Paper low = sheet.place.right, high = sheet.place.left;
    const auto& one = sheet.plot.targets[target];
    for (const auto& mean : {one.one_way.positive.mean, one.one_way.negative.mean, one.mean})
        if (mean) low = std::min(low, sheet.across(*mean)), high = std::max(high, sheet.across(*mean));
    return {low, high};
}

/// "51: E, M" beside the row that sets them, with a stroke at each level.
void draw_setting_targets(RowsSheet& sheet) {
    std::map<std::size_t, Text> labels;
    for (const report::SettingTick& tick : sheet.plot.ticks) {
        if (!sheet.is_here(tick.target)) continue;
        const Paper at = sheet.across(tick.level), level = sheet.level(tick.target);
        sheet.items.emplace_back(line(sheet.tools, PenRole::SettingTick, {at, level - pt(half_setting_tick)},
                                      {at, level + pt(half_setting_tick)}));
        Text& words = labels[tick.target];
        if (words.words().find(tick.symbol) != std::string::npos && !words.empty()) continue;
        if (words.empty()) words.plain(std::to_string(tick.target + 1) + ":\u00a0");
        else words.plain(",\u00a0");
        words.symbol(tick.symbol);
    }
    for (const auto& [target, words] : labels) {
        const auto [low, high] = reach(sheet, target);
        const Paper width = width_of(sheet.tools, words, {}), level = sheet.level(target);
        std::vector<Rect> wishes;
        // On its row it is known for what it is also from afar, where few rows let the curves run nearly level.
        for (const double further : {0.0, 6.0, 14.0, 24.0, 36.0, 50.0, 66.0, 84.0})
            for (const Paper left : {high + pt(beside_curve + further), low - pt(beside_curve + further) - width})
                wishes.push_back(sheet.box_at(left, level, width));
        sheet.put_at(words, {}, wishes);
    }
}

/// "positive" and "negative" on the outer side of their curves.
void name_curves(RowsSheet& sheet) {
    for (const Approach approach : document::both_approaches) {
        const Text words{std::string(word(approach))};
        const Paper width = width_of(sheet.tools, words, {});
        std::vector<Rect> wishes;
        // From the middle of the rows outwards, the two not on one row.
        const std::size_t rows = sheet.place.levels.size(), middle = rows * (approach == Approach::Positive ? 2 : 3) / 5;
        for (std::size_t out = 0; rows > 2 && out < 2 * rows; ++out) {
            const std::size_t row = out % 2 == 0 ? middle + out / 2 : middle - 1 - out / 2;
            if (row == 0 || row >= rows - 1) continue;  // also what lies before the first
            const auto &own = sheet.target_of(row).one_way[approach].mean,
                       &other = sheet.target_of(row).one_way[approach == Approach::Positive ? Approach::Negative : Approach::Positive].mean;
            if (!own || !other) continue;
            const Paper left = *own < *other ? sheet.across(*own) - pt(beside_curve) - width : sheet.across(*own) + pt(beside_curve);
            wishes.push_back(sheet.box_at(left, sheet.place.levels[row], width));
        }
        if (const auto box = sheet.places.place(wishes))
            put(sheet.items, sheet.tools, words, {.colour = roles_of(approach).label}, {box->left, box->top + pt(small_figure_top)});
    }
}

/// What is measured between two levels, one below the other under the rows. @return their lower end
Paper draw_brackets(RowsSheet& sheet, const report::OneRun& block) {
    Paper y = sheet.place.bottom + pt(first_bracket_below);
    const Paper tick = sheet.tools.layout.size(SizeRole::BracketTick);
    for (const report::Bracket& bracket : sheet.plot.brackets) {
        const Paper low = sheet.across(bracket.low), high = sheet.across(bracket.high);
        const std::vector<Point> outline{{low, y - tick}, {low, y}, {high, y}, {high, y - tick}};
        sheet.items.emplace_back(polyline(sheet.tools, PenRole::Bracket, outline));
        const auto value = std::ranges::find(block.measured, bracket.symbol, &std::pair<std::string, Text>::first);
        Text words = Text().symbol(bracket.symbol);
        if (value != block.measured.end()) words.strong("\u00a0" + value->second.words());
        const Paper width = width_of(sheet.tools, words, {});
        const bool right = high + pt(number_beside_bracket) + width <= sheet.place.right + pt(next_bracket);
        const Paper end = right ? high + pt(number_beside_bracket) : low - pt(number_beside_bracket);
        put(sheet.items, sheet.tools, words, {}, {end, y + pt(half_figure)}, right ? Align::Left : Align::Right);
        y += pt(next_bracket);
    }
    return y;
}

}  // namespace

DrawnFigure rows_figure(const Tools& tools, const report::OneRun& block, const RowsPlace& place) {
    RowsSheet sheet{.tools = tools,
                    .plot = block.plot,
                    .place = place,
                    .x = Scale(place.ticks.low(), place.ticks.high(), place.left, place.right),
                    .places = LabelPlaces({place.left, place.top, place.right - place.left, place.bottom - place.top})};
    draw_scale(sheet);
    draw_limits(sheet);
    draw_curves(sheet);
    draw_setting_targets(sheet);
    name_curves(sheet);
    const Paper bottom = place.ends ? draw_brackets(sheet, block) : place.bottom;
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(sheet.items)), .bottom = bottom, .bracket_top = place.top};
    drawn.group.alternative = block.plot.alternative;
    drawn.group.id = block.plot.series_id;
    drawn.group.box = Rect{place.left - pt(number_below_axis), place.head - pt(title_ascent),
                           place.right - place.left + pt(2 * number_below_axis), bottom - place.head + pt(title_ascent)};
    return drawn;
}

}  // namespace wayfolio::plot
