#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/axes.hpp"
#include "plot/marks/curves.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

/// Both panels and the strip of their difference, side by side.
struct Thirds {
    Paper first_left, first_right, second_left, second_right, strip_left, strip_right;
};

Thirds thirds_of(const Composer& composer, Paper label_room) {
    const auto& grid = composer.grid();
    constexpr double between = 15, strip_label_room = 28, panel = 92, strip = 84;  // of which the last two share the width
    const Paper all = grid.wide_right - grid.left - label_room - pt(between + strip_label_room);
    const Paper panel_width = all * (panel / (2 * panel + strip));
    const Paper first = grid.left + label_room, second = first + panel_width + pt(between);
    const Paper strip_left = second + panel_width + pt(strip_label_room);
    return {first, first + panel_width, second, second + panel_width, strip_left, grid.wide_right};
}

constexpr double rows_below_verdict = 12;

/// Names and values beside a pair, one below the other.
Placed pair_rows(const Composer& composer, const report::StatePair& pair, Paper at) {
    const auto& grid = composer.grid();
    constexpr double values_at = 74, pitch = 10.5;
    const Paper names = grid.margin_left + pt(symbol_room), values = grid.margin_left + pt(values_at);
    Table table(composer.tools(), {{names, ColumnAlign::Left}, {values, ColumnAlign::Decimal}});
    table.begin("");
    for (const auto& [name, value] : pair.rows) {
        constexpr double value_room = 20;  // of its whole part
        Placed words = paragraph(composer.tools(), name, {}, {names, at}, values - names - pt(value_room), frame::Role::HeadCell);
        words.group.scope = frame::Scope::Row;
        table.add_row({std::move(words.group), table.data_cell(value, 1, at)});
        at = std::max(at, words.last) + pt(pitch);
    }
    return {table.take(), at - pt(pitch)};
}

/// From the top of a pair to the last line that stands beside it: below its panels where the states have long names.
Paper beside_height(const Composer& composer, const report::StatePair& pair) {
    const Paper verdict = pt(beside_top) + margin_verdict_height(composer, pair.verdict);
    return pair_rows(composer, pair, verdict + pt(rows_below_verdict)).last;
}

/// @param caption what the figure of the first panel begins with
void place_pair(Composer& composer, const report::StatePair& pair, Paper top, Paper height, bool last, std::vector<Item> caption) {
    const Tools& tools = composer.tools();
    constexpr int most_ticks = 5;
    constexpr double pair_title_above = 10;
    const plot::Ticks ticks = plot::pair_ticks(pair, most_ticks);
    const Paper room = std::max(tools.layout.size(SizeRole::TickLabelRoom), plot::marks::y_label_room(tools, ticks));
    const Thirds thirds = thirds_of(composer, room);
    const Paper radius = plot::marks::marker_radius(tools.layout.size(SizeRole::MarkerRadiusSmall),
                                                    thirds.first_right - thirds.first_left, pair.first.targets.size());
    composer.add(text_line(tools, pair.name, {.colour = ColourRole::Grey}, {composer.grid().left, top - pt(pair_title_above)}, Align::Left,
                           frame::Role::Heading3));
    plot::PanelPlace place{.left = composer.grid().left,
                           .right = thirds.first_right,
                           .top = top,
                           .height = height,
                           .plot_left = thirds.first_left,
                           .ticks = ticks,
                           .positions = plot::shared_positions({&pair.first, &pair.second}),
                           .x_numbers = last,
                           .marker_radius = radius,
                           .x_title = Text(pair.first.axis_name + " / " + std::string(pair.first.position_unit.symbol))};
    plot::DrawnFigure first = plot::panel_figure(tools, pair.first, place);
    first.group.items.insert(first.group.items.begin(), caption.begin(), caption.end());
    composer.add(std::move(first.group));
    place.x_title = Text();
    place.y_numbers = false;
    place.left = place.plot_left = thirds.second_left;
    place.right = thirds.second_right;
    composer.add(plot::panel_figure(tools, pair.second, place).group);
    place.left = place.plot_left = thirds.strip_left;
    place.right = thirds.strip_right;
    composer.add(plot::difference_figure(tools, pair, place).group);
    const Paper at = margin_verdict(composer, pair.verdict, top + pt(beside_top), {});
    Placed rows = pair_rows(composer, pair, at + pt(rows_below_verdict));
    composer.add(std::move(rows.group));
    composer.margin_free() = std::max(composer.margin_free(), rows.last);
}

std::vector<Column> change_columns(const layouts::PaperGrid& grid) {
    const auto number = [&](double x) { return Column{grid.left + pt(x), ColumnAlign::Decimal}; };
    const Column words{grid.margin_left + pt(2 * symbol_room), ColumnAlign::Left};  // behind the symbols of both verdicts
    return {{grid.left, ColumnAlign::Left}, number(140), number(184), number(226), number(282), number(324), words};
}

std::vector<Column> change_heads(const layouts::PaperGrid& grid) {
    std::vector<Column> heads = change_columns(grid);
    for (Column& head : heads)
        if (head.align == ColumnAlign::Decimal) head = {head.x + pt(past_decimal), ColumnAlign::Right};
    heads.back().x = grid.margin_left;
    return heads;
}

/// A head that wraps where a state has a long name; `lowest` goes to its last baseline.
Group change_head(Composer& composer, const Table& table, const Text& words, std::size_t column, Paper& lowest) {
    const Tools& tools = composer.tools();
    const Look grey{.type = TypeRole::Small, .colour = ColourRole::Grey};
    const Column place = change_heads(composer.grid())[column];
    constexpr double number_room = 44;
    const bool at_left = place.align == ColumnAlign::Left;
    const Paper room = column == 0 ? pt(number_room) * 2 : at_left ? composer.grid().margin_right - place.x : pt(number_room);
    if (plot::width_of(tools, words, grey) <= room) return table.head_cell(words, column, composer.y);
    Placed wrapped = paragraph(tools, words, grey, {at_left ? place.x : place.x - room, composer.y}, room, frame::Role::HeadCell);
    wrapped.group.scope = frame::Scope::Column;
    lowest = std::max(lowest, wrapped.last);
    return std::move(wrapped.group);
}

Group changes_head(Composer& composer, const report::States& block) {
    const auto& grid = composer.grid();
    Table head(composer.tools(), change_heads(grid));
    head.begin("");
    const std::vector<Text> words{Text("Without a panel"), Text(block.first_head), Text(block.second_head), Text("change"),
                                  report::marked("*U* of change"), Text("limit"),
                                  Text("Verdict " + block.first_head + ", " + block.second_head)};
    std::vector<Group> cells;
    Paper lowest = composer.y;
    for (std::size_t i = 0; i < words.size(); ++i) cells.push_back(change_head(composer, head, words[i], i, lowest));
    head.add_head(std::move(cells));
    composer.y = lowest + pt(head_room);
    composer.add(rule(composer.tools(), grid.left, grid.margin_right, lowest + pt(rule_below_row)));
    Group made = head.take();
    return std::get<Group>(std::move(made.items.front()));
}

/// Ends the table on this page; composer.y goes to the rule under it.
void close_changes(Composer& composer, Table& table, Group head) {
    Group whole = table.take();
    whole.items.insert(whole.items.begin(), Item(std::move(head)));
    composer.add(std::move(whole));
    composer.y += pt(rule_below_row) - composer.tools().layout.size(SizeRole::RowPitch);
    composer.add(rule(composer.tools(), composer.grid().left, composer.grid().margin_right, composer.y));
}

/// What became of both verdicts, beside the numbers.
FlowingText change_words(const Composer& composer, const report::ChangeRow& row) {
    return {composer.tools(), row.words, {}, composer.grid().margin_right - change_columns(composer.grid()).back().x};
}

Paper change_height(const Composer& composer, const FlowingText& words) {
    const double more = static_cast<double>(std::max<std::size_t>(words.size(), 1) - 1);
    return composer.tools().layout.size(SizeRole::RowPitch) + words.leading() * more;
}

Paper changes_height(const Composer& composer, const report::States& block) {
    if (block.changes.empty()) return {};
    constexpr double around_rows = 34;
    Paper height = pt(around_rows);
    for (const report::ChangeRow& row : block.changes) height += change_height(composer, change_words(composer, row));
    return height;
}

void place_changes(Composer& composer, const report::States& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    Table table(tools, change_columns(grid));
    const std::string key = composer.fits(changes_height(composer, block)) ? "" : block.opening.anchor + "-changes";
    const auto begin_table = [&] {
        table.begin(key);
        return changes_head(composer, block);
    };
    Group head = begin_table();
    for (const report::ChangeRow& row : block.changes) {
        const FlowingText words = change_words(composer, row);
        const Paper height = change_height(composer, words);
        if (!composer.fits(height - tools.layout.size(SizeRole::RowPitch))) {
            close_changes(composer, table, std::move(head));
            turn_page(composer, block.opening.label);
            head = begin_table();
        }
        const Paper at = composer.y;
        table.row({row.name, row.first, row.second, row.change, row.U, row.limit}, at);
        const Point words_at{change_columns(grid).back().x, at};
        table.add_to_last_row(words.part(0, words.size(), words_at, frame::Role::DataCell).group);
        composer.add(artifact({plot::marks::superseded_symbol(tools, row.first_verdict.standing, grid.margin_left, at),
                               plot::marks::verdict_symbol(tools, row.second_verdict.standing, grid.margin_left + pt(symbol_room), at)}));
        composer.y += height;
    }
    close_changes(composer, table, std::move(head));
    composer.y += pt(row_below_rule);
}

void place_notes(Composer& composer, const report::States& block) {
    const auto& grid = composer.grid();
    for (const Text& note : block.notes) {
        place_flowing(composer, {composer.tools(), note, {.colour = ColourRole::Grey}, grid.wide_right - grid.left}, grid.left,
                      frame::Role::Note, [&](Group lines) { composer.add(std::move(lines)); },
                      [&] { turn_page(composer, block.opening.label); });
        composer.y += pt(row_below_rule);
    }
}

/// The layout's height, or less where that keeps pairs and table on one page; never under two thirds of it.
Paper pair_height(const Composer& composer, const report::States& block, Paper top) {
    const Paper usual = composer.tools().layout.size(SizeRole::PairHeight), gap = composer.tools().layout.size(SizeRole::PairGap);
    const auto pairs = static_cast<double>(block.pairs.size());
    const Paper around = gap * (pairs - 1) + pt(figure_below) + composer.grid().baseline_step + changes_height(composer, block);
    const Paper room = (composer.last_baseline() - top - around) / pairs;
    constexpr double least = 2.0 / 3;
    return room >= usual * least ? std::min(room, usual) : usual;
}

}  // namespace

void place(Composer& composer, const report::States& block) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper beside = place_opening(composer, block.opening);
    constexpr double figures_below_titles = 22, past_last_baseline = 12;
    const Thirds thirds = thirds_of(composer, tools.layout.size(SizeRole::TickLabelRoom));
    Paper titles = composer.y;
    const auto place_title = [&](const std::string& title, Paper left, Paper right) {
        Placed words = paragraph(tools, Text().strong(title), {}, {left, composer.y}, right - left, frame::Role::Heading2);
        titles = std::max(titles, words.last);
        composer.add(std::move(words.group));
    };
    place_title(block.first_title, thirds.first_left, thirds.first_right);
    place_title(block.second_title, thirds.second_left, thirds.second_right);
    place_title(block.difference_title, thirds.strip_left, thirds.strip_right);
    Group captioned;  // the first panel's figure carries the caption of all
    margin_caption(composer, captioned, block.figure_number, block.caption, beside);
    const Paper gap = tools.layout.size(SizeRole::PairGap);
    Paper top = titles + pt(figures_below_titles);
    const Paper height = pair_height(composer, block, top);
    std::vector<Paper> beside_pairs;
    for (const report::StatePair& pair : block.pairs) beside_pairs.push_back(beside_height(composer, pair));
    const auto past_page = [&](Paper pair_top, std::size_t i) {
        const Paper figures = pair_top + height + pt(plot::axis_room) - pt(past_last_baseline);
        return std::max(figures, pair_top + beside_pairs[i]) > composer.last_baseline();
    };
    for (std::size_t i = 0; i < block.pairs.size(); ++i) {
        if (past_page(top, i)) {
            turn_page(composer, block.opening.label);
            top = composer.y + pt(title_above);
        }
        const Paper next = top + std::max(height + gap, beside_pairs[i] + pt(body_ascent));
        const bool last = i + 1 == block.pairs.size() || past_page(next, i + 1);
        place_pair(composer, block.pairs[i], top, height, last, std::exchange(captioned.items, {}));
        top = next;
    }
    composer.y = composer.on_grid(top - gap + pt(figure_below));
    if (!block.changes.empty()) {
        if (!composer.fits(changes_height(composer, block))) turn_page(composer, block.opening.label);
        place_changes(composer, block);
    }
    place_notes(composer, block);
    composer.y = composer.on_grid(std::max(composer.y, composer.margin_free() + grid.baseline_step));
    place_sections(composer, block.sections, block.opening.label);
}

}  // namespace wayfolio::page
