#include "page/blocks/blocks.hpp"

#include "page/blocks/readings_grid.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/marks/curves.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

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

Group head_cells(const Tools& tools, const ReadingsGrid& grid, const Readings& block, Paper at) {
    Table table(tools, grid.head_columns());
    table.begin("");
    std::vector<Text> cells{Text("No."), Text("position"), Text()};
    for (std::size_t run = 0; run < grid.runs_per_line; ++run) cells.emplace_back(run < block.run_heads.size() ? block.run_heads[run] : "");
    cells.insert(cells.end(), {Text("mean"), Text().symbol("s\u1d62"), block.reversal_column ? Text().symbol("B\u1d62") : Text(),
                               block.repeatability_column ? Text().symbol("R\u1d62") : Text()});
    table.head(cells, at);
    return table.take();
}

/// Heads over groups of columns with short rules, then the heads of the columns, which are the table's own: they are given back
/// for it. composer.y goes to the first row.
Group place_heads(Composer& composer, const ReadingsGrid& grid, const Readings& block, Table& table) {
    const Tools& tools = composer.tools();
    const Look grey{.colour = ColourRole::Grey};
    const auto over = [&](const std::string& words, Paper from, Paper to) {
        composer.add(text_line(tools, words, grey, {from, composer.y}, Align::Left, frame::Role::Artifact));
        composer.add(rule(tools, from, to, composer.y + pt(rule_below_group)));
    };
    over("Target / " + block.position_unit, composer.grid().left, grid.position + pt(grid.position_tail));
    if (!block.run_heads.empty())
        over("Reading in run / " + block.unit, grid.runs.front() - grid.run_pitch + pt(before_first_run),
             grid.runs.back() + pt(grid.run_tail));
    over("Evaluated / " + block.evaluated_unit, grid.mean - pt(before_mean), grid.right);
    composer.y += pt(heads_below_groups);
    table.begin("readings-" + block.opening.anchor);
    Group heads = head_cells(tools, grid, block, composer.y), head;
    for (Item& item : heads.items) {
        if (auto& part = std::get<Group>(item); part.role == frame::Role::TableHead) head = std::move(part);
    }
    composer.add(rule(tools, composer.grid().left, composer.grid().margin_right, composer.y + pt(rule_below_row)));
    const bool notes = std::ranges::any_of(block.targets, [](const ReadingTarget& target) { return !target.notes.empty(); });
    if (!grid.wide && notes)
        composer.add(text_line(tools, "Notes", grey, {composer.grid().margin_left, composer.y}, Align::Left, frame::Role::Artifact));
    composer.y += pt(head_room);
    return head;
}

void place_line(Composer& composer, const ReadingsGrid& grid, const ReadingTarget& target, std::size_t which, Table& table) {
    const report::ReadingLine& line = target.lines[which];
    const Tools& tools = composer.tools();
    const std::size_t rows = static_cast<std::size_t>(grid.lines_for(line.readings.size()));
    for (std::size_t row = 0; row < rows; ++row) {
        const bool first = row == 0;
        std::vector<Text> cells{Text(which == 0 && first ? target.number : ""), Text(which == 0 && first ? target.position : ""), Text()};
        for (std::size_t i = 0; i < grid.runs_per_line; ++i) {
            const std::size_t run = row * grid.runs_per_line + i;
            cells.push_back(run < line.readings.size() ? line.readings[run] : Text());
        }
        const bool target_values = which == 0 && first;
        cells.insert(cells.end(), {first ? line.mean : Text(), first ? line.s : Text(), target_values ? target.reversal : Text(),
                                   target_values ? target.repeatability : Text()});
        table.row(cells, composer.y);
        if (first) {
            constexpr double raise = 2.7;
            composer.add(artifact({plot::marks::marker(tools, line.approach, {grid.marker, composer.y - pt(raise)},
                                                       tools.layout.size(SizeRole::MarkerRadius))}));
        }
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

/// Notes of a full-width table stand under it, where the page goes on if it must.
void place_notes_below(Composer& composer, const Readings& block) {
    const Tools& tools = composer.tools();
    for (const ReadingTarget& target : block.targets) {
        for (const Text& note : target.notes) {
            const Paper width = composer.grid().margin_right - composer.grid().left;
            if (!composer.fits(paragraph_height(tools, note, {}, width))) {
                composer.new_page();
                place_continued(composer, block.opening.label);
            }
            Placed placed = paragraph(tools, note, {}, {composer.grid().left, composer.y}, width, frame::Role::Note);
            composer.add(std::move(placed.group));
            composer.y = placed.last + tools.layout.type(TypeRole::Small).leading;
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
    place_direction_key(composer, block);
    place_opening(composer, block.opening);
    const ReadingsGrid grid = readings_grid(composer, block);
    Table table(composer.tools(), grid.columns());
    Group head = place_heads(composer, grid, block, table);
    for (std::size_t i = 0; i < block.targets.size(); ++i) {
        const ReadingTarget& target = block.targets[i];
        // The closing rule and "continued" need their own lines.
        const Paper height = pt(line_pitch * (lines_of(grid, target) - 1));
        constexpr double closing = 14;
        if (!composer.fits(height + pt(closing))) {
            close_table(composer, grid, table, std::move(head), true);
            composer.new_page();
            place_continued(composer, block.opening.label);
            head = place_heads(composer, grid, block, table);
        }
        if (!grid.wide && !target.notes.empty()) margin_notes(composer, "", target.notes, composer.y);
        for (std::size_t which = 0; which < target.lines.size(); ++which) place_line(composer, grid, target, which, table);
        const bool last = i + 1 == block.targets.size();
        if (!last) composer.y += pt((i + 1) % fifth == 0 ? after_fifth : between_targets);
    }
    close_table(composer, grid, table, std::move(head), false);
    if (grid.wide) place_notes_below(composer, block);
}

}  // namespace wayfolio::page
