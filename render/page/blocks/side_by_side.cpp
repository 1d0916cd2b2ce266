#include "page/blocks/side_by_side.hpp"

#include "page/blocks/readings_end.hpp"
#include "page/blocks/readings_grid.hpp"
#include "page/flowing.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "plot/marks/curves.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <optional>

namespace wayfolio::page {
namespace {

using report::Approach;
using report::Readings;
using report::ReadingTarget;

constexpr double row_pitch = 11, head_below_title = 14, rule_below_heads = 4.5, first_row_below_head = 13.5;
constexpr double least_air = 5, marker_before_word = 5, bookmark_above_title = 12;
constexpr std::size_t rows_to_rule = 5;  // rules after each fifth target, as a reader counts them
constexpr std::size_t approaches = 2;

/// A column of the table: how far its numbers reach left and right of the decimal mark, and its place.
struct NumberColumn {
    NumberRoom room;
    Paper head;  ///< width of its head
    bool group_begins = false;
    Paper x;     ///< of the decimal mark
    [[nodiscard]] Paper width() const { return std::max(room.before + room.after, head); }
};

/// Number of the target, its place, the runs of either approach, then what was evaluated of them.
struct Columns {
    std::vector<NumberColumn> all;
    std::size_t runs = 0;  ///< of either approach
    std::optional<std::size_t> reversal, repeatability;
    [[nodiscard]] std::size_t first_run(std::size_t approach) const { return 2 + approach * runs; }
    [[nodiscard]] std::size_t mean(std::size_t approach) const { return 2 + approaches * runs + approach; }
    [[nodiscard]] std::size_t s(std::size_t approach) const { return mean(approach) + approaches; }
};

const Text& symbol_of_reversal() {
    static const Text text = Text().symbol("B\u1d62");
    return text;
}
const Text& symbol_of_repeatability() {
    static const Text text = Text().symbol("R\u1d62");
    return text;
}

/// The parentheses of an excluded reading and its note hang into the air beside the column, as far as that reaches.
void add_hanging(NumberRoom& room, const Tools& tools, const Text& reading) {
    const std::string words = reading.words();
    const auto closing = words.find(')');
    if (!words.starts_with('(') || closing == std::string::npos) return room.add(tools, reading);
    constexpr double still_free = 1;
    NumberRoom number;
    number.add(tools, Text(words.substr(1, closing - 1)));
    const Paper opens = plot::width_of(tools, "(", {}), closes = plot::width_of(tools, Text(words.substr(closing)), {});
    const auto beyond = [](Paper width) { return std::max(Paper{}, width - pt((least_air - still_free) / 2)); };
    room.before = std::max(room.before, number.before + beyond(opens));
    room.after = std::max(room.after, number.after + beyond(closes));
}

Columns columns_of(const Tools& tools, const Readings& block) {
    Columns columns;
    columns.runs = block.run_heads.size();
    columns.all.resize(2 + approaches * (columns.runs + 2));
    if (block.reversal_column) columns.reversal = columns.all.size(), columns.all.emplace_back();
    if (block.repeatability_column) columns.repeatability = columns.all.size(), columns.all.emplace_back();
    const auto head = [&](std::size_t column, const Text& words, double more = 0) {
        columns.all[column].head = plot::width_of(tools, words, {}) + pt(more);
    };
    head(0, Text("No."));
    head(1, Text(block.axis + " / " + block.position_unit));
    NumberRoom readings, means, spreads;
    for (const ReadingTarget& target : block.targets) {
        columns.all[0].room.add(tools, Text(target.number));
        columns.all[1].room.add(tools, Text(target.position));
        for (const auto& line : target.lines) {
            for (const Text& reading : line.readings) add_hanging(readings, tools, reading);
            means.add(tools, line.mean);
            spreads.add(tools, line.s);
        }
        if (columns.reversal) columns.all[*columns.reversal].room.add(tools, target.reversal);
        if (columns.repeatability) columns.all[*columns.repeatability].room.add(tools, target.repeatability);
    }
    for (std::size_t approach = 0; approach < approaches; ++approach) {
        for (std::size_t run = 0; run < columns.runs; ++run) columns.all[columns.first_run(approach) + run].room = readings;
        columns.all[columns.first_run(approach)].group_begins = true;
        columns.all[columns.mean(approach)].room = means;
        columns.all[columns.s(approach)].room = spreads;
        head(columns.mean(approach), Text("mean"), marker_before_word);
        head(columns.s(approach), Text().symbol("s\u1d62"), marker_before_word);
    }
    columns.all[columns.mean(0)].group_begins = true;
    return columns;
}

/// Spreads the columns from the left edge to `right`; false where they have no room.
bool spread(Columns& columns, Paper left, Paper right) {
    Paper natural;
    double gaps = 0;
    constexpr double group_gap = 2;  // a gap before a group counts so many times
    for (std::size_t i = 0; i < columns.all.size(); ++i) {
        natural += columns.all[i].width();
        if (i > 0) gaps += columns.all[i].group_begins ? group_gap : 1;
    }
    const Paper air = (right - left - natural) / gaps;
    if (air < pt(least_air)) return false;
    Paper at = left;
    for (std::size_t i = 0; i < columns.all.size(); ++i) {
        NumberColumn& column = columns.all[i];
        if (i > 0) at += air * (column.group_begins ? group_gap : 1);
        at += column.width();
        column.x = at - column.room.after;
    }
    return true;
}

std::vector<Column> places_of(const Columns& columns, bool heads) {
    std::vector<Column> all;
    for (const NumberColumn& column : columns.all)
        all.push_back(heads ? Column{column.x + column.room.after, ColumnAlign::Right} : Column{column.x, ColumnAlign::Decimal});
    return all;
}

Group spans(Group cell, std::size_t columns, int rows) {
    cell.column_span = static_cast<int>(columns);
    cell.row_span = rows;
    return cell;
}

std::string approach_words(Approach approach) { return approach == Approach::Positive ? "positive approach" : "negative approach"; }

ClosingPlaces closing_places(const Columns& columns) {
    ClosingPlaces places{.readings = {}, .runs = columns.runs, .evaluated = columns.all.size() - columns.mean(0)};
    for (std::size_t i = 0; i < approaches; ++i) {
        const NumberColumn& last = columns.all[columns.first_run(i) + columns.runs - 1];
        places.readings.at(i) = last.x + last.room.after;
    }
    return places;
}

/// Between rows: what heads and ends a table is darker.
Group pale_rule(const Tools& tools, Paper from, Paper to, Paper y) {
    return artifact({plot::line(tools, PenRole::RowRule, {from, y}, {to, y})});
}

/// Two rows of heads on one line of the page: what a marker says of the runs behind it spans them.
Group heads_of(const Tools& tools, const Columns& columns, const Readings& block, Paper y) {
    Table table(tools, places_of(columns, /*heads=*/true));
    table.begin("");
    std::vector<Group> groups, runs;
    const auto over_both_rows = [&](const Text& words, std::size_t column) {
        groups.push_back(spans(table.head_cell(words, column, y), 1, 2));
    };
    over_both_rows(Text("No."), 0);
    over_both_rows(Text(block.axis + " / " + block.position_unit), 1);
    for (std::size_t i = 0; i < approaches; ++i) {
        const Approach approach = document::both_approaches[i];
        const NumberColumn& first = columns.all[columns.first_run(i)];
        const Paper end = first.x + first.room.after;
        Group cell = plot::grouped(frame::Role::HeadCell,
                                   {said_marker(tools, approach, {end - pt(2 * marker_before_word + 2), y},
                                                "Reading in run, " + approach_words(approach) + " / " + block.unit)});
        cell.scope = frame::Scope::Column;
        groups.push_back(spans(std::move(cell), columns.runs, 1));
        for (std::size_t run = 0; run < columns.runs; ++run)
            runs.push_back(table.head_cell(Text(block.run_heads[run]), columns.first_run(i) + run, y));
    }
    const auto evaluated = [&](const Text& words, std::size_t column, std::size_t i) {
        Group cell = table.head_cell(words, column, y);
        const Paper left = columns.all[column].x + columns.all[column].room.after - plot::width_of(tools, words, {});
        cell.items.insert(cell.items.begin(), said_marker(tools, document::both_approaches[i], {left - pt(marker_before_word), y},
                                                          approach_words(document::both_approaches[i])));
        groups.push_back(spans(std::move(cell), 1, 2));
    };
    for (std::size_t i = 0; i < approaches; ++i) evaluated(Text("mean"), columns.mean(i), i);
    for (std::size_t i = 0; i < approaches; ++i) evaluated(Text().symbol("s\u1d62"), columns.s(i), i);
    if (columns.reversal) over_both_rows(symbol_of_reversal(), *columns.reversal);
    if (columns.repeatability) over_both_rows(symbol_of_repeatability(), *columns.repeatability);
    table.add_head(std::move(groups));
    table.add_head(std::move(runs));
    Group made = table.take();
    return std::get<Group>(std::move(made.items.front()));
}

std::vector<Group> row_of(const Table& table, const Columns& columns, const ReadingTarget& target, Paper y) {
    std::vector<Group> cells{table.row_head(Text(target.number), 0, y), table.data_cell(Text(target.position), 1, y)};
    for (std::size_t i = 0; i < approaches; ++i)
        for (std::size_t run = 0; run < columns.runs; ++run) {
            const auto& readings = target.lines[i].readings;
            cells.push_back(table.data_cell(run < readings.size() ? readings[run] : Text(), columns.first_run(i) + run, y));
        }
    for (std::size_t i = 0; i < approaches; ++i) cells.push_back(table.data_cell(target.lines[i].mean, columns.mean(i), y));
    for (std::size_t i = 0; i < approaches; ++i) cells.push_back(table.data_cell(target.lines[i].s, columns.s(i), y));
    if (columns.reversal) cells.push_back(table.data_cell(target.reversal, *columns.reversal, y));
    if (columns.repeatability) cells.push_back(table.data_cell(target.repeatability, *columns.repeatability, y));
    return cells;
}

/// The columns over the whole width; nothing where they have no room, or where targets were reached by one approach only.
std::optional<Columns> spread_over_page(const Composer& composer, const Readings& block) {
    const auto both = [](const ReadingTarget& target) { return target.lines.size() == approaches; };
    if (block.targets.empty() || block.run_heads.empty() || !std::ranges::all_of(block.targets, both)) return std::nullopt;
    Columns columns = columns_of(composer.tools(), block);
    if (!spread(columns, composer.grid().left, composer.grid().margin_right)) return std::nullopt;
    return columns;
}

}  // namespace

Group said_marker(const Tools& tools, Approach approach, Point at, const std::string& words) {
    constexpr double raise = 2.7;
    Group said = plot::grouped(frame::Role::Span, {plot::marks::marker(tools, approach, {at.x, at.y - pt(raise)},
                                                                       tools.layout.size(SizeRole::MarkerRadius))});
    said.alternative = words;
    return said;
}

bool place_readings_title(Composer& composer, const Readings& block) {
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().left, right = composer.grid().margin_right;
    composer.set_anchor(block.opening.anchor);
    composer.add(frame::Bookmark{.level = 1, .title = block.opening.label, .at = {left, composer.y - pt(bookmark_above_title)}});
    const std::string units = block.unit == block.evaluated_unit ? block.unit : block.unit + "; means and s / " + block.evaluated_unit;
    const Text heading = Text().strong(block.opening.label + " / " + units);
    const Look body{.type = TypeRole::Body}, grey{.colour = ColourRole::Grey};
    Placed title = paragraph(tools, heading, body, {left, composer.y}, right - left, frame::Role::Heading1);
    title.group.anchor = block.opening.anchor;
    composer.add(std::move(title.group));
    const Text all = words_on_all_readings(block);
    const bool beside =
        title.lines == 1 && plot::width_of(tools, heading, body) + pt(words_gap) + plot::width_of(tools, all, grey) <= right - left;
    if (beside) composer.add(text_line(tools, all, grey, {right, composer.y}, Align::Right, frame::Role::Paragraph));
    composer.y = title.last + pt(head_below_title);
    return beside;
}

bool stands_side_by_side(const Composer& composer, const Readings& block) { return spread_over_page(composer, block).has_value(); }

bool place_side_by_side(Composer& composer, const Readings& block) {
    const auto spread_columns = spread_over_page(composer, block);
    if (!spread_columns) return false;
    const Columns& columns = *spread_columns;
    const Tools& tools = composer.tools();
    const Paper left = composer.grid().left, right = composer.grid().margin_right;
    const bool said = place_readings_title(composer, block);
    Table table(tools, places_of(columns, /*heads=*/false));
    const auto begin = [&] {
        table.begin("readings-" + block.opening.anchor);
        Group head = heads_of(tools, columns, block, composer.y);
        composer.add(rule(tools, left, right, composer.y + pt(rule_below_heads)));
        composer.y += pt(first_row_below_head);
        return head;
    };
    const auto close = [&](Group head, bool ends) {
        const Paper at = composer.y - pt(row_pitch) + pt(rule_below_row);
        std::vector<Group> closing;
        if (ends) closing = closing_cells(composer, block.extremes, closing_places(columns), at + pt(closing_below_rule));
        composer.y = at + pt(note_below_rule) + (closing.empty() ? Paper{} : pt(closing_below_rule));
        const bool closed = !closing.empty();
        if (closed) table.add_row(std::move(closing));
        Group whole = table.take();
        whole.items.insert(whole.items.begin(), Item(std::move(head)));
        composer.add(std::move(whole));
        composer.add(rule(tools, left, right, at));
        if (ends && !closed) place_closing_words(composer, block);
    };
    Group head = begin();
    const std::size_t count = block.targets.size();
    std::size_t first_of_page = 0;
    for (std::size_t i = 0; i < count; ++i) {
        // The line that names the next page needs room, and no row goes on alone.
        const double below = i + 2 >= count ? note_below_rule + closing_below_rule : note_below_rule;
        const double needed = i + 2 == count ? row_pitch + below : below;
        if (i > 1 && !composer.fits(pt(needed))) {
            close(std::move(head), /*ends=*/false);
            composer.set_goes_on({right, composer.y});
            turn_page(composer, block.opening.label, 1);  // the heads stand under it as under the title
            head = begin();
            first_of_page = i;
        }
        if (i % rows_to_rule == 0 && i > first_of_page)
            composer.add(pale_rule(tools, left, right, composer.y - pt(row_pitch / 2 + plot::half_figure)));
        table.add_row(row_of(table, columns, block.targets[i], composer.y));
        composer.y += pt(row_pitch);
    }
    close(std::move(head), /*ends=*/true);
    place_beneath_readings(composer, block, said);
    return true;
}

}  // namespace wayfolio::page
