#include "page/blocks/blocks.hpp"

#include "page/blocks/answer_parts.hpp"
#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/marks/mean_curve.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/shapes.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace wayfolio::page {
namespace {

using report::marked;
using report::QuantityRow;

// Micro-graphics of a row, measured from the wide column's left edge.
constexpr double curve_left = 94, curve_right = 156, result_left = 172, gauge_left = 250;
constexpr double first_line = 11, second_line = 21, map_rule_below = 8;
constexpr double row_air = 3;  // graphics and links keep off the rules above and below their row

const units::DeviationUnit base_length(units::micrometre), base_angle(units::microradian);

const units::DeviationUnit& base_unit(const QuantityRow& row) {
    return !row.curve.empty() && row.curve[0].second.dimension() == units::Dimension::Angle ? base_angle : base_length;
}

/// Points of paper per µm and per µrad: one scale for each.
struct CurveScales {
    double length, angle;
    [[nodiscard]] double of(const QuantityRow& row) const { return base_unit(row) == base_angle ? angle : length; }
};

CurveScales scales_of(const Composer& composer, const std::vector<QuantityRow>& rows) {
    std::vector<const plot::marks::CurvePoints*> lengths, angles;
    for (const QuantityRow& row : rows) (base_unit(row) == base_angle ? angles : lengths).push_back(&row.curve);
    constexpr double air = 2;
    const Paper height = composer.tools().layout.size(SizeRole::CurveHeight) - pt(air);
    return {plot::marks::curve_scale(lengths, base_length, height), plot::marks::curve_scale(angles, base_angle, height)};
}

std::vector<Column> map_columns(const layouts::PaperGrid& grid) {
    return {{grid.left, ColumnAlign::Left},
            {grid.left + pt(curve_left), ColumnAlign::Left},
            {grid.left + pt(result_left), ColumnAlign::Left},
            {grid.margin_left, ColumnAlign::Left}};
}

bool has_gauges(const report::Answer& block) {
    return std::ranges::any_of(block.rows, [](const QuantityRow& row) { return row.value_of_limit.has_value(); });
}

/// The two places on the gauges' scale, in words for those who hear it.
Group gauge_head(const Composer& composer) {
    const Tools& tools = composer.tools();
    const Look grey{.colour = ColourRole::Grey};
    const Paper left = composer.grid().left + pt(gauge_left);
    Group scale = plot::grouped(frame::Role::Span, {});
    scale.alternative = "Share of the limit";
    plot::put(scale.items, tools, Text("0"), grey, {left, composer.y});
    plot::put(scale.items, tools, Text("limit"), grey, {plot::marks::gauge_limit(tools, left), composer.y}, Align::Centre);
    Group cell = plot::grouped(frame::Role::HeadCell, {std::move(scale)});
    cell.scope = frame::Scope::Column;
    return cell;
}

/// A drawing in a cell, with its words.
Group drawn_cell(Group drawing, const std::string& words) {
    Group cell = plot::grouped(frame::Role::DataCell, {});
    if (words.empty()) return cell;
    Group figure = plot::grouped(frame::Role::Figure, {std::move(drawing)});
    figure.alternative = words;
    cell.items.emplace_back(std::move(figure));
    return cell;
}

/// Head of the map of quantities; composer.y then stands on the rule under it.
void place_map_head(Composer& composer, const report::Answer& block, Table& table) {
    const auto& grid = composer.grid();
    std::vector<Group> cells{table.head_cell(Text("Quantity"), 0, composer.y), table.head_cell(Text(block.curve_title), 1, composer.y),
                             table.head_cell(marked("Result and *U*"), 2, composer.y)};
    if (has_gauges(block)) cells.push_back(gauge_head(composer));
    cells.push_back(table.head_cell(Text("Verdict"), 3, composer.y));
    table.add_head(std::move(cells));
    composer.y += pt(map_rule_below);
    composer.add(rule(composer.tools(), grid.left, grid.margin_right, composer.y));
}

/// @param width of the second line, which wraps
/// @param link over the first line, where there is one
Group two_lines(const Tools& tools, const Text& first, const Text& second, Point at, Paper width, frame::Role role,
                std::optional<frame::Link> link = std::nullopt) {
    Group cell = plot::grouped(role, {});
    if (role == frame::Role::HeadCell) cell.scope = frame::Scope::Row;
    Group words = text_line(tools, first, {.type = TypeRole::Body}, {at.x, at.y + pt(first_line)}, Align::Left,
                            link ? frame::Role::LinkText : frame::Role::Paragraph);
    if (link) {
        words.items.emplace_back(std::move(*link));
        words = plot::grouped(frame::Role::Paragraph, {std::move(words)});
    }
    // Two paragraphs: a screen reader must not run the lines together.
    cell.items.emplace_back(std::move(words));
    cell.items.emplace_back(paragraph(tools, second, {.colour = ColourRole::Grey}, {at.x, at.y + pt(second_line)}, width).group);
    return cell;
}

/// The margin words under a verdict may wrap to two lines; a long reason stands in "What failed" in full.
Group verdict_cell(Composer& composer, const QuantityRow& row, Paper top) {
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().margin_left + pt(row.verdict.standing == report::Standing::NoLimit ? 0 : symbol_room);
    const Paper room = composer.grid().margin_right - left;
    Group cell = plot::grouped(frame::Role::DataCell, {});
    const auto add_line = [&](const Text& words, const Look& look, double line) {
        if (!words.empty())
            cell.items.emplace_back(text_line(tools, words, look, {left, top + pt(line)}, Align::Left, frame::Role::Paragraph));
    };
    add_line(row.verdict.head, {.type = TypeRole::Body}, first_line);
    const bool fits = plot::width_of(tools, row.verdict.margin, {}) <= room;
    add_line(fits ? row.verdict.margin : Text("see below"), {.colour = ColourRole::Grey}, second_line);
    return cell;
}

constexpr double name_room = curve_left - words_gap, result_room = gauge_left - result_left - words_gap;

/// What stands under a row's name: the page is known only when all are placed.
Text detail_of(Composer& composer, const QuantityRow& row) {
    const int page = composer.page_of(row.destination);
    return Text(row.detail + (page > 0 ? ", page\u00a0" + std::to_string(page) : ""));
}

/// The layout's pitch, and more where the words under the name wrap.
Paper map_row_height(Composer& composer, const QuantityRow& row) {
    const Tools& tools = composer.tools();
    return tools.layout.size(SizeRole::QuantityRowPitch) +
           paragraph_height(tools, detail_of(composer, row), {.colour = ColourRole::Grey}, pt(name_room));
}

void place_map_row(Composer& composer, const QuantityRow& row, const CurveScales& scales, bool gauges, Table& table) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper top = composer.y, pitch = tools.layout.size(SizeRole::QuantityRowPitch);
    const int page = composer.page_of(row.destination);
    std::optional<frame::Link> link;
    if (page > 0)  // a layout without openings has nowhere to go
        link = frame::Link{.box = {grid.left, top + pt(row_air), pt(name_room), pitch - pt(2 * row_air)},
                           .destination = row.destination,
                           .uri = "",
                           .description = "To the page of " + row.name};
    const Rect curve{grid.left + pt(curve_left), top + pt(row_air), pt(curve_right - curve_left), pitch - pt(2 * row_air)};
    std::vector<Group> cells{
        two_lines(tools, row.name, detail_of(composer, row), {grid.left, top}, pt(name_room), frame::Role::HeadCell, std::move(link)),
        drawn_cell(plot::marks::mean_curve(tools, row.curve, base_unit(row), scales.of(row), curve), row.curve_words),
        two_lines(tools, row.result, row.limit, {grid.left + pt(result_left), top}, pt(result_room), frame::Role::DataCell)};
    if (gauges)
        cells.push_back(drawn_cell(plot::marks::gauge(tools, row.value_of_limit, row.U_of_limit, row.verdict.standing,
                                                      grid.left + pt(gauge_left), top + pitch / 2),
                                   row.gauge_words));
    cells.push_back(verdict_cell(composer, row, top));
    table.add_row(std::move(cells));
    composer.add(artifact({plot::marks::verdict_symbol(tools, row.verdict.standing, grid.margin_left, top + pt(first_line))}));
    composer.y = top + map_row_height(composer, row);
    composer.add(rule(tools, grid.left, grid.margin_right, composer.y));
}

/// The one limit line through all rows that have a gauge.
void place_limit_line(Composer& composer, const report::Answer& block, Paper from, Paper to) {
    if (!has_gauges(block)) return;
    const Paper x = plot::marks::gauge_limit(composer.tools(), composer.grid().left + pt(gauge_left));
    composer.add(artifact({plot::line(composer.tools(), PenRole::SymbolLimit, {x, from + pt(row_air)}, {x, to - pt(row_air)})}));
}

void place_map(Composer& composer, const report::Answer& block) {
    const Tools& tools = composer.tools();
    const CurveScales scales = scales_of(composer, block.rows);
    Table table(tools, map_columns(composer.grid()));
    if (!composer.fits(pt(map_rule_below) + tools.layout.size(SizeRole::QuantityRowPitch))) turn_page(composer, block.opening.label);
    table.begin("quantities");
    place_map_head(composer, block, table);
    Paper first = composer.y;
    for (const QuantityRow& row : block.rows) {
        if (!composer.fits(map_row_height(composer, row))) {
            place_limit_line(composer, block, first, composer.y);
            composer.add(table.take());
            turn_page(composer, block.opening.label);
            table.begin("quantities");
            place_map_head(composer, block, table);
            first = composer.y;
        }
        place_map_row(composer, row, scales, has_gauges(block), table);
    }
    place_limit_line(composer, block, first, composer.y);
    composer.add(table.take());
    constexpr double notes_below = 14, map_below = 16;
    Paper next = composer.y + pt(notes_below);
    for (const Text& note : block.rows_note) {
        composer.y = next;
        place_flowing(composer, {tools, note, {.colour = ColourRole::Grey}, composer.grid().wide_right - composer.grid().left},
                      composer.grid().left, frame::Role::Note, [&](Group lines) { composer.add(std::move(lines)); },
                      [&] { turn_page(composer, block.opening.label); });
        next = composer.y + tools.layout.type(TypeRole::Small).leading;
    }
    composer.y = composer.on_grid(next + pt(map_below));
}

/// The opening, what weakens the verdicts before how they were come by.
report::Opening with_weaknesses(Composer& composer, const report::Answer& block) {
    report::Opening opening = block.opening;
    if (block.weaknesses.empty()) return opening;
    opening.body = Text().strong("What weakens this").plain("\u2002");
    for (const report::Weakness& weakness : block.weaknesses) {
        const int page = composer.page_of(weakness.destination);
        opening.body.append(weakness.sentence)
            .plain((page > 0 ? " (page\u00a0" + std::to_string(page) + ")" : std::string()) +
                   (&weakness == &block.weaknesses.back() ? "." : ". "));
    }
    if (!block.opening.body.empty()) opening.body.plain("\n").append(block.opening.body);
    return opening;
}

/// Signature lines and the note of issue at the foot of the page. A full page leaves the signatures to the closing block, where there is
/// one.
void place_answer_foot(Composer& composer, const report::Answer& block) {
    const Paper height = signatures_height(composer, block.signatures);
    constexpr double air = 18;
    // What stands last ends two steps above where the next would begin.
    const auto is_full = [&] { return composer.y - composer.grid().baseline_step * 2 > composer.last_baseline() - height - pt(air); };
    const bool full = is_full();
    if (full && block.signed_at_end) {
        margin_notes(composer, "", block.issue_note, composer.margin_free() + pt(air));
        return;
    }
    if (full) turn_page(composer, block.opening.label);
    const Paper line_at = is_full() ? composer.y + pt(air) : composer.last_baseline() - height;
    place_signatures(composer, block.signatures, line_at, block.opening.label);
    // A note that is higher than the signatures begins above them.
    const Paper notes = std::max(height, margin_notes_height(composer, block.issue_note));
    margin_notes(composer, "", block.issue_note, std::max(composer.grid().first_baseline, composer.last_baseline() - notes));
}

}  // namespace

void place(Composer& composer, const report::Answer& block) {
    place_opening(composer, with_weaknesses(composer, block));
    constexpr double map_below_facts = 12, cautions_ascent = 10;
    const Paper facts_end = place_facts(composer, block.facts);
    composer.y = composer.on_grid(std::max(composer.y, facts_end + pt(map_below_facts)));
    place_map(composer, block);
    const int first_page = composer.page_number();
    const Paper words_top = composer.y;
    place_words(composer, block, "Failed or undecided", block.what_failed, false);
    place_words(composer, block, "What to do next", block.what_next, true);
    // Cautions stand beside the words where the page holds both; otherwise they begin beside what follows.
    composer.margin_free() =
        std::max(composer.margin_free(), composer.page_number() == first_page ? words_top - pt(cautions_ascent) : Paper{});
    margin_notes(composer, "Cautions", block.cautions, composer.page_number() == first_page ? words_top : composer.grid().first_baseline);
    place_answer_foot(composer, block);
}

}  // namespace wayfolio::page
