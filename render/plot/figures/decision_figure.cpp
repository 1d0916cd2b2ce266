#include "plot/figures/figures.hpp"

#include "plot/label_places.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

namespace wayfolio::plot {
namespace {

using report::DecisionPicture;

// Heights below the top of the figure.
constexpr double limit_words_at = 8, value_line_at = 30, bracket_at = 40, U_words_at = 52, edge_words_at = 68, strip_top = 72,
                 strip_bottom = 84, zone_words_at = 99, whole = 102;
constexpr double value_words_above = 9, bracket_tick = 3.5, beside_line = 5;
constexpr double words_ascent = 7, words_apart = 2, air_around = 2;

/// A drawing in progress.
struct Sheet {
    const Tools& tools;
    const DecisionPicture& picture;
    Scale x;
    Paper top;
    std::vector<Item> items{};

    [[nodiscard]] Paper at(double height) const { return top + pt(height); }
    [[nodiscard]] Paper limit() const { return x.map(picture.limit); }
    /// A line of words centred on `middle`, moved aside where the limit line would run through it, and kept inside the figure.
    void beside_limit(const report::Text& words, const Look& look, Paper middle, Paper baseline) {
        const Paper width = width_of(tools, words, look);
        Paper left = middle - width / 2;
        const bool crossed = left < limit() + pt(beside_line) && left + width > limit() - pt(beside_line);
        if (crossed) left = middle < limit() ? limit() - pt(beside_line) - width : limit() + pt(beside_line);
        left = std::clamp(left, x.from(), std::max(x.from(), x.to() - width));
        put(items, tools, words, look, {left, baseline});
    }
};

void draw_value(Sheet& sheet) {
    const DecisionPicture& picture = sheet.picture;
    const Paper level = sheet.at(value_line_at), value = sheet.x.map(picture.value);
    sheet.items.emplace_back(line(sheet.tools, PenRole::ZeroLine, {sheet.x.from(), level}, {sheet.x.to(), level}));
    if (picture.U) {
        const Paper low = sheet.x.map(picture.value - *picture.U), high = sheet.x.map(picture.value + *picture.U);
        sheet.items.emplace_back(line(sheet.tools, PenRole::UncertaintyBar, {low, level}, {high, level}));
        const Paper foot = sheet.at(bracket_at), tick = pt(bracket_tick);
        const std::vector<Point> bracket{{value, foot - tick}, {value, foot}, {high, foot}, {high, foot - tick}};
        sheet.items.emplace_back(polyline(sheet.tools, PenRole::Bracket, bracket));
        sheet.beside_limit(picture.U_words, {}, (value + high) / 2, sheet.at(U_words_at));
    }
    marks::value_mark(sheet.items, sheet.tools, picture.verdict.standing, {value, level});
    sheet.beside_limit(picture.value_words, {}, value, level - pt(value_words_above));
}

void draw_limit(Sheet& sheet) {
    sheet.items.emplace_back(
        line(sheet.tools, PenRole::SymbolLimit, {sheet.limit(), sheet.at(0)}, {sheet.limit(), sheet.at(strip_bottom)}));
    const Paper width = width_of(sheet.tools, sheet.picture.limit_words, {});
    const bool turned = sheet.limit() + pt(beside_line) + width > sheet.x.to();
    put(sheet.items, sheet.tools, sheet.picture.limit_words, {},
        {sheet.limit() + pt(turned ? -beside_line : beside_line), sheet.at(limit_words_at)}, turned ? Align::Right : Align::Left);
}

/// Symbol and word of a zone, centred in it; the word gives way where its neighbour's would touch it.
void name_zones(Sheet& sheet) {
    constexpr double after_symbol = 19, apart = 8;
    Paper free = sheet.x.from() - pt(apart);
    for (const DecisionPicture::Zone& zone : sheet.picture.zones) {
        if (zone.word.empty()) continue;
        const Paper width = width_of(sheet.tools, zone.word, {}) + pt(after_symbol);
        const Paper middle = (sheet.x.map(zone.from) + sheet.x.map(zone.to)) / 2;
        const Paper left =
            std::clamp(std::max(middle - width / 2, free + pt(apart)), sheet.x.from(), std::max(sheet.x.from(), sheet.x.to() - width));
        if (left < free) continue;
        sheet.items.emplace_back(marks::verdict_symbol(sheet.tools, zone.standing, left, sheet.at(zone_words_at)));
        put(sheet.items, sheet.tools, zone.word, {}, {left + pt(after_symbol), sheet.at(zone_words_at)});
        free = left + width;
    }
}

void draw_zones(Sheet& sheet) {
    const Paper top = sheet.at(strip_top), bottom = sheet.at(strip_bottom);
    for (const DecisionPicture::Zone& zone : sheet.picture.zones) {
        if (!zone.guard) continue;
        const std::vector<Point> corners{
            {sheet.x.map(zone.from), top}, {sheet.x.map(zone.to), top}, {sheet.x.map(zone.to), bottom}, {sheet.x.map(zone.from), bottom}};
        sheet.items.emplace_back(
            hatch(stroke(sheet.tools, PenRole::BandHatch), corners, sheet.tools.layout.size(SizeRole::HatchPitch), HatchSlope::Rising));
    }
    for (const Paper y : {top, bottom})
        sheet.items.emplace_back(line(sheet.tools, PenRole::Bracket, {sheet.x.from(), y}, {sheet.x.to(), y}));
    LabelPlaces places({sheet.x.from(), sheet.at(0), sheet.x.to() - sheet.x.from(), sheet.at(whole) - sheet.at(0)});
    places.take_line({sheet.limit(), sheet.at(edge_words_at - label_height)}, {sheet.limit(), sheet.at(edge_words_at)});
    const auto place = [&](const report::Text& words, Paper middle) {
        const Paper width = width_of(sheet.tools, words, {}), ascent = pt(words_ascent);
        const auto box = places.place({{middle - width / 2, sheet.at(edge_words_at) - ascent, width + pt(words_apart), ascent}});
        if (box) put(sheet.items, sheet.tools, words, {}, {box->left, sheet.at(edge_words_at)});
    };
    for (const auto& [edge, words] : sheet.picture.edges) {
        const Paper x = sheet.x.map(edge);
        sheet.items.emplace_back(line(sheet.tools, PenRole::SymbolLimit, {x, top}, {x, bottom}));
        place(report::Text(words), x);
    }
    for (const auto& [edge, words] : sheet.picture.edges) {
        const bool wider = edge > sheet.picture.limit && !sheet.picture.over_words.empty();
        place(wider ? sheet.picture.over_words : sheet.picture.width_words, (sheet.x.map(edge) + sheet.limit()) / 2);
    }
}

}  // namespace

Paper decision_height() { return pt(whole); }

DrawnFigure decision_figure(const Tools& tools, const DecisionPicture& picture, Paper left, Paper right, Paper top) {
    Sheet sheet{.tools = tools, .picture = picture, .x = Scale(picture.low, picture.high, left, right), .top = top};
    draw_zones(sheet);
    draw_value(sheet);
    draw_limit(sheet);
    name_zones(sheet);
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(sheet.items)),
                      .bottom = sheet.at(whole),
                      .bracket_top = top,
                      .reversal_top = {},
                      .repeatability_top = {}};
    drawn.group.alternative = picture.alternative;
    drawn.group.id = "decision";
    drawn.group.box = Rect{left, top - pt(air_around), right - left, pt(whole + 2 * air_around)};
    return drawn;
}

}  // namespace wayfolio::plot
