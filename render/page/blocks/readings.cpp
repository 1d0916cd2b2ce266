#include "page/blocks/blocks.hpp"

#include "page/blocks/one_run.hpp"
#include "page/blocks/readings_end.hpp"
#include "page/blocks/readings_grid.hpp"
#include "page/blocks/side_by_side.hpp"
#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/marks/curves.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <optional>

namespace wayfolio::page {
namespace {

using report::Readings;
using report::ReadingTarget;

constexpr double line_pitch = 12, between_targets = 2, after_fifth = 6;
constexpr int fifth = 5;  // targets stand in fives, as a reader counts them
// Heads over groups of columns.
constexpr double rule_below_group = 4, before_first_run = 6, before_mean = 22, heads_below_groups = 15;
constexpr double marker_in_key = 3, words_in_key = 12;

double lines_of(const ReadingsGrid& grid, const ReadingTarget& target) {
    double lines = 0;
    for (const auto& line : target.lines) lines += grid.lines_for(line.readings.size());
    return std::max(lines, 1.0);
}

Group spanning(Group cell, int columns, int rows) {
    cell.column_span = columns;
    cell.row_span = rows;
    return cell;
}

/// Markers with the word for them.
Group marked_cell(std::vector<Item> markers, const std::string& words, frame::Scope scope) {
    Group said = plot::grouped(frame::Role::Span, std::move(markers));
    said.alternative = words;
    Group cell = plot::grouped(frame::Role::HeadCell, {std::move(said)});
    cell.scope = scope;
    return cell;
}

Item approach_marker(const Tools& tools, report::Approach approach, Point at) {
    constexpr double raise = 2.7;
    return plot::marks::marker(tools, approach, {at.x, at.y - pt(raise)}, tools.layout.size(SizeRole::MarkerRadius));
}

/// Columns that this table has, by their places in the grid.
struct TableColumns {
    std::size_t first_run, mean;  ///< places; s stands behind the mean
    std::optional<std::size_t> reversal, repeatability;
    std::vector<std::size_t> evaluated;
};

TableColumns table_columns(const ReadingsGrid& grid, const Readings& block) {
    constexpr std::size_t runs_from = 3;  // behind number, position and approach
    const std::size_t mean = runs_from + grid.runs_per_line;
    TableColumns columns{.first_run = runs_from, .mean = mean, .reversal = {}, .repeatability = {}, .evaluated = {mean, mean + 1}};
    if (block.reversal_column) columns.evaluated.push_back(*(columns.reversal = mean + 2));
    if (block.repeatability_column) columns.evaluated.push_back(*(columns.repeatability = mean + 3));
    return columns;
}

/// One line of column heads: the runs whose readings stand in that line of each target; what spans all lines stands in the first.
std::vector<Group> column_heads(Table& table, const ReadingsGrid& grid, const Readings& block, int line, int lines, Paper y) {
    const TableColumns columns = table_columns(grid, block);
    std::vector<Group> cells;
    const auto spans_lines = [&](const Text& words, std::size_t column) {
        if (line == 0) cells.push_back(spanning(table.head_cell(words, column, y), 1, lines));
    };
    spans_lines(Text("No."), 0);
    spans_lines(Text("position"), 1);
    for (std::size_t i = 0; i < grid.runs_per_line; ++i) {
        const std::size_t run = static_cast<std::size_t>(line) * grid.runs_per_line + i, column = columns.first_run + i;
        // The last line may have room for more runs than there are: a head without words is a fault, a cell without is not.
        const bool there = run < block.run_heads.size();
        cells.push_back(there ? table.head_cell(Text(block.run_heads[run]), column, y) : table.data_cell(Text(), column, y));
    }
    spans_lines(Text("mean"), columns.mean);
    spans_lines(Text().symbol("s\u1d62"), columns.mean + 1);
    if (columns.reversal) spans_lines(Text().symbol("B\u1d62"), *columns.reversal);
    if (columns.repeatability) spans_lines(Text().symbol("R\u1d62"), *columns.repeatability);
    return cells;
}

/// Heads over groups of columns with short rules, then the heads of the columns. composer.y goes to the first row.
Group place_heads(Composer& composer, const ReadingsGrid& grid, const Readings& block) {
    const Tools& tools = composer.tools();
    const Look grey{.colour = ColourRole::Grey};
    const TableColumns columns = table_columns(grid, block);
    const int head_lines = std::max(1, static_cast<int>(grid.lines_for(block.run_heads.size())));
    Table table(tools, grid.head_columns());
    table.begin("");
    std::vector<Group> groups;
    const auto over = [&](const std::string& words, Paper from, Paper to, std::size_t count) {
        Group cell = text_line(tools, words, grey, {from, composer.y}, Align::Left, frame::Role::HeadCell);
        cell.scope = frame::Scope::Column;
        groups.push_back(spanning(std::move(cell), static_cast<int>(count), 1));
        composer.add(rule(tools, from, to, composer.y + pt(rule_below_group)));
    };
    over("Target / " + block.position_unit, composer.grid().left, grid.position + pt(grid.position_tail), 2);
    const Point markers{grid.marker, composer.y + pt(heads_below_groups)};
    constexpr double apart = 2.6;
    groups.push_back(spanning(marked_cell({approach_marker(tools, report::Approach::Positive, {markers.x - pt(apart), markers.y}),
                                           approach_marker(tools, report::Approach::Negative, {markers.x + pt(apart), markers.y})},
                                          "Approach", frame::Scope::Column),
                              1, 1 + head_lines));
    if (!block.run_heads.empty())
        over("Reading in run / " + block.unit, grid.runs.front() - grid.run_pitch + pt(before_first_run),
             grid.runs.back() + pt(grid.run_tail), grid.runs_per_line);
    over("Evaluated / " + block.evaluated_unit, grid.mean - pt(before_mean), grid.right, columns.evaluated.size());
    table.add_head(std::move(groups));
    composer.y += pt(heads_below_groups);
    for (int line = 0; line < head_lines; ++line) {
        if (line > 0) composer.y += pt(line_pitch);
        table.add_head(column_heads(table, grid, block, line, head_lines, composer.y));
    }
    composer.add(rule(tools, composer.grid().left, composer.grid().margin_right, composer.y + pt(rule_below_row)));
    const bool notes = std::ranges::any_of(block.targets, [](const ReadingTarget& target) { return !target.notes.empty(); });
    if (!grid.wide && notes)
        composer.add(text_line(tools, "Notes", grey, {composer.grid().margin_left, composer.y}, Align::Left, frame::Role::Artifact));
    composer.y += pt(head_room);
    Group made = table.take();
    return std::get<Group>(std::move(made.items.front()));
}

/// The rows of one approach. What belongs to the whole target stands in its first row and spans all.
void place_line(Composer& composer, const ReadingsGrid& grid, const Readings& block, const ReadingTarget& target, std::size_t which,
                Table& table) {
    const report::ReadingLine& line = target.lines[which];
    const Tools& tools = composer.tools();
    const TableColumns columns = table_columns(grid, block);
    const int rows = static_cast<int>(grid.lines_for(line.readings.size())), all_rows = static_cast<int>(lines_of(grid, target));
    const std::string words = line.approach == report::Approach::Positive ? "positive" : "negative";
    for (int row = 0; row < rows; ++row) {
        const bool first = row == 0, first_of_target = first && which == 0;
        std::vector<Group> cells;
        const auto value = [&](const Text& number, std::size_t column, int spanned) {
            cells.push_back(spanning(table.data_cell(number, column, composer.y), 1, spanned));
        };
        if (first_of_target) {
            cells.push_back(spanning(table.row_head(Text(target.number), 0, composer.y), 1, all_rows));
            value(Text(target.position), 1, all_rows);
        }
        if (first)
            cells.push_back(spanning(
                marked_cell({approach_marker(tools, line.approach, {grid.marker, composer.y})}, words, frame::Scope::Row), 1, rows));
        for (std::size_t i = 0; i < grid.runs_per_line; ++i) {
            const std::size_t run = static_cast<std::size_t>(row) * grid.runs_per_line + i;
            value(run < line.readings.size() ? line.readings[run] : Text(), columns.first_run + i, 1);
        }
        if (first) {
            value(line.mean, columns.mean, rows);
            value(line.s, columns.mean + 1, rows);
        }
        if (first_of_target && columns.reversal) value(target.reversal, *columns.reversal, all_rows);
        if (first_of_target && columns.repeatability) value(target.repeatability, *columns.repeatability, all_rows);
        table.add_row(std::move(cells));
        composer.y += pt(line_pitch);
    }
}

void close_table(Composer& composer, const ReadingsGrid& grid, Table& table, Group head, bool goes_on) {
    Group whole = table.take();
    whole.items.insert(whole.items.begin(), Item(std::move(head)));
    composer.add(std::move(whole));
    const Paper at = composer.y - pt(line_pitch) + pt(rule_below_row);
    composer.add(rule(composer.tools(), composer.grid().left, composer.grid().margin_right, at));
    composer.y = at + pt(row_below_rule);
    if (goes_on) composer.set_goes_on({grid.right, composer.y});
}

Paper gap_below(std::size_t target) { return pt((target + 1) % fifth == 0 ? after_fifth : between_targets); }

/// From the first to the last baseline of a target; of the last but one with the last, where that is a single row and would stand alone on
/// the next page.
Paper height_together(const ReadingsGrid& grid, const Readings& block, std::size_t i) {
    const Paper own = pt(line_pitch * (lines_of(grid, block.targets[i]) - 1));
    const bool before_single = i > 1 && i + 2 == block.targets.size() && lines_of(grid, block.targets.back()) == 1;
    return before_single ? own + pt(line_pitch) + gap_below(i) : own;
}

/// Notes of a full-width table stand under it, where the page goes on if it must.
void place_notes_below(Composer& composer, const Readings& block) {
    const Tools& tools = composer.tools();
    for (const ReadingTarget& target : block.targets) {
        for (const Text& note : target.notes) {
            const Paper width = composer.grid().margin_right - composer.grid().left;
            place_flowing(composer, {tools, note, {}, width}, composer.grid().left, frame::Role::Note,
                          [&](Group lines) { composer.add(std::move(lines)); }, [&] { turn_page(composer, block.opening.label); });
            composer.y += tools.layout.type(TypeRole::Small).leading;
        }
    }
}

void place_direction_key(Composer& composer, const Readings& block) {
    const Tools& tools = composer.tools();
    Paper at = composer.y;
    for (const auto& [approach, words] :
         {std::pair(report::Approach::Positive, "positive approach"), std::pair(report::Approach::Negative, "negative approach")}) {
        const bool used = std::ranges::any_of(block.targets, [&](const ReadingTarget& t) {
            return std::ranges::any_of(t.lines, [&](const auto& l) { return l.approach == approach; });
        });
        if (!used) continue;
        const Paper left = composer.grid().margin_left;
        composer.add(artifact({plot::marks::marker(tools, approach, {left + pt(marker_in_key), at - pt(plot::half_figure)},
                                                   tools.layout.size(SizeRole::MarkerRadius))}));
        composer.add(text_line(tools, words, {}, {left + pt(words_in_key), at}, Align::Left, frame::Role::Paragraph));
        at += pt(line_pitch);
    }
    composer.margin_free() = std::max(composer.margin_free(), at);
}

}  // namespace

void place(Composer& composer, const Readings& block) {
    if (block.one_run) return place_one_run(composer, block);
    if (place_side_by_side(composer, block)) return;
    place_direction_key(composer, block);
    place_opening(composer, block.opening);
    const ReadingsGrid grid = readings_grid(composer, block);
    Table table(composer.tools(), grid.columns());
    const auto begin_table = [&] {
        table.begin("readings-" + block.opening.anchor);
        return place_heads(composer, grid, block);
    };
    Group head = begin_table();
    for (std::size_t i = 0; i < block.targets.size(); ++i) {
        const ReadingTarget& target = block.targets[i];
        // The closing rule and "continued" need their own lines.
        constexpr double line_of_next_page = 14;
        const double closing = i + 2 >= block.targets.size() ? line_of_next_page + note_below_rule : line_of_next_page;
        if (!composer.fits(height_together(grid, block, i) + pt(closing))) {
            close_table(composer, grid, table, std::move(head), true);
            turn_page(composer, block.opening.label);
            head = begin_table();
        }
        if (!grid.wide && !target.notes.empty()) margin_notes(composer, "", target.notes, composer.y);
        for (std::size_t which = 0; which < target.lines.size(); ++which) place_line(composer, grid, block, target, which, table);
        const bool last = i + 1 == block.targets.size();
        if (!last) composer.y += gap_below(i);
    }
    close_table(composer, grid, table, std::move(head), false);
    place_closing_words(composer, block);
    if (grid.wide) place_notes_below(composer, block);
}

}  // namespace wayfolio::page
