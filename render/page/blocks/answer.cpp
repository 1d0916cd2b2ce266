#include "page/blocks/blocks.hpp"

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

/// Names beside their values at the top of the margin column. Returns its lowest baseline.
Paper place_facts(Composer& composer, const std::vector<report::Fact>& facts) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    constexpr double values_at = 44, between = 2;
    Paper at = grid.first_baseline;
    Group list = plot::grouped(frame::Role::Table, {});
    Group body = plot::grouped(frame::Role::TableBody, {});
    const Paper values = grid.margin_left + pt(values_at), leading = tools.layout.type(TypeRole::Small).leading;
    for (const report::Fact& fact : facts) {
        const bool below_foot = composer.lines_in_margin(1, leading, at) == 0;
        const Look grey{.colour = ColourRole::Grey};
        Group row = plot::grouped(frame::Role::TableRow, {});
        Group name = plot::grouped(frame::Role::HeadCell, {});
        name.scope = frame::Scope::Row;
        if (below_foot)
            composer.leave_for_next_margin({tools, Text(fact.name), grey, grid.margin_right - grid.margin_left}, 0, grid.margin_left);
        else plot::put(name.items, tools, fact.name, grey, {grid.margin_left, at});
        row.items.emplace_back(std::move(name));
        Group value = plot::grouped(frame::Role::DataCell, {});
        for (const Text& line : fact.lines) {
            FlowingText words(tools, line, {}, grid.margin_right - values);
            const std::size_t here = composer.lines_in_margin(words.size(), leading, at);
            Placed placed = words.part(0, here, {values, at}, frame::Role::Paragraph);
            if (here > 0) value.items.emplace_back(std::move(placed.group));
            composer.leave_for_next_margin(std::move(words), here, values);
            at = placed.last + leading;
        }
        row.items.emplace_back(std::move(value));
        if (!below_foot) body.items.emplace_back(std::move(row));
        at += pt(between);
    }
    list.items.emplace_back(std::move(body));
    if (!facts.empty()) composer.add(std::move(list));
    composer.margin_free() = std::max(composer.margin_free(), at);
    return at;
}

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

bool begins_below_heading(Composer& composer, const FlowingText& first) {
    const Paper heading = composer.y;
    composer.y += composer.grid().baseline_step;
    const bool begins = lines_here(composer, first.size(), first.leading()) > 0;
    composer.y = heading;
    return begins;
}

/// Heading and paragraphs, numbered where `numbered`; goes on over pages paragraph by paragraph.
void place_words(Composer& composer, const report::Answer& block, const std::string& heading, const std::vector<Text>& paragraphs,
                 bool numbered) {
    if (paragraphs.empty()) return;
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    constexpr double number_room = 14;
    const Paper indent = pt(numbered ? number_room : 0), width = grid.wide_right - grid.left - indent;
    Group list = plot::grouped(frame::Role::List, {});
    const auto go_on = [&] {
        if (!list.items.empty()) composer.add(std::exchange(list, plot::grouped(frame::Role::List, {})));
        turn_page(composer, block.opening.label);
    };
    const auto broken = [&](const Text& words) { return FlowingText(tools, words, {.type = TypeRole::Body}, width); };
    if (!begins_below_heading(composer, broken(paragraphs[0]))) go_on();
    composer.add(
        text_line(tools, Text().strong(heading), {.type = TypeRole::Body}, {grid.left, composer.y}, Align::Left, frame::Role::Heading2));
    composer.y += grid.baseline_step;
    for (std::size_t i = 0; i < paragraphs.size(); ++i) {
        bool begun = false;
        const auto add = [&](Group lines) {
            if (!numbered) return composer.add(std::move(lines));
            Group item = plot::grouped(frame::Role::ListItem, {});
            if (!std::exchange(begun, true))
                item.items.emplace_back(text_line(tools, std::to_string(i + 1), {.type = TypeRole::Body}, {grid.left, composer.y},
                                                  Align::Left, frame::Role::ListLabel));
            item.items.emplace_back(std::move(lines));
            list.items.emplace_back(std::move(item));
        };
        place_flowing(composer, broken(paragraphs[i]), grid.left + indent, numbered ? frame::Role::ListBody : frame::Role::Paragraph, add,
                      go_on);
        composer.y += grid.baseline_step;
    }
    if (!list.items.empty()) composer.add(std::move(list));
    composer.y += grid.baseline_step;
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
