#include "page/blocks/sections/part_flow.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"
#include "plot/marks/verdict_symbol.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double head_height = 16, table_rule_below = 5, after_table = 6;  // closer than other tables
constexpr double row_gap = 2, wrapped_row_gap = 4;  // rows of several lines are told apart by more
/// Rows of a table that stand together on each of its pages.
constexpr std::size_t rows_together = 2;

/// The cells of a row, broken into lines. A number is one.
struct RowWords {
    const std::vector<Text>* words;
    std::vector<FlowingText> cells;
    std::size_t most = 1;
};

struct TableLines {
    std::vector<Rect> boxes;  ///< left and width of each column; top unused
    std::vector<report::Cells> holds;
    std::vector<Text> heads;
    std::vector<RowWords> rows;
    double gap = row_gap;
};

RowWords broken(const Tools& tools, const TableLines& table, const std::vector<Text>& words, const Look& look) {
    RowWords row{.words = &words};
    for (std::size_t i = 0; i < words.size(); ++i) {
        row.cells.emplace_back(tools, table.holds[i] == report::Cells::Numbers ? Text() : words[i], look, table.boxes[i].width);
        row.most = std::max(row.most, row.cells.back().size());
    }
    return row;
}

/// @param rows how many of them, from the first on
TableLines broken(const PartFlow& flow, const report::PlainTable& part, std::size_t rows) {
    TableLines table;
    Paper at = flow.left();
    for (const report::TableColumn& column : part.columns) {
        const Paper width = flow.full_width() * column.width;
        table.boxes.push_back({at, {}, width - pt(words_gap), {}});
        table.holds.push_back(column.cells);
        table.heads.emplace_back(column.head);
        at += width;
    }
    for (std::size_t i = 0; i < rows; ++i) table.rows.push_back(broken(flow.composer.tools(), table, part.rows[i], section_small));
    if (std::ranges::any_of(table.rows, [](const RowWords& row) { return row.most > 1; })) table.gap = wrapped_row_gap;
    return table;
}

/// The lines of a row from `first` on that stand on one page.
Group row_group(const Tools& tools, const TableLines& table, const RowWords& row, std::size_t first, std::size_t end, Paper baseline,
                const Look& look, frame::Role role) {
    Group group = plot::grouped(frame::Role::TableRow, {});
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
        // Where a row goes on, its name is on the page before.
        const bool heads = role == frame::Role::HeadCell || (i == 0 && (first == 0 || first < row.cells[i].size()));
        Group cell = plot::grouped(heads ? frame::Role::HeadCell : frame::Role::DataCell, {});
        if (heads) cell.scope = role == frame::Role::HeadCell ? frame::Scope::Column : frame::Scope::Row;
        if (table.holds[i] != report::Cells::Numbers)
            cell.items = row.cells[i].part(first, end, {table.boxes[i].left, baseline}, frame::Role::Plain).group.items;
        else if (first == 0)
            plot::put(cell.items, tools, (*row.words)[i], look, {table.boxes[i].right(), baseline}, Align::Right);
        group.items.emplace_back(std::move(cell));
    }
    return group;
}

/// Drawn into the cell that a table has for it, the first line of its row at `baseline`.
void add_gauge(Group& row, const Tools& tools, const TableLines& table, const report::CellGauge& gauge, Paper baseline) {
    const auto column = std::ranges::find(table.holds, report::Cells::Gauges) - table.holds.begin();
    const Paper left = table.boxes[static_cast<std::size_t>(column)].left, middle = baseline - pt(plot::half_figure);
    Group drawn = plot::marks::gauge(tools, gauge.value_of_limit, gauge.U_of_limit, gauge.standing, left, middle);
    if (gauge.was_of_limit) drawn.items.emplace_back(plot::marks::gauge_before(tools, *gauge.was_of_limit, left, middle));
    const Paper limit = plot::marks::gauge_limit(tools, left);
    constexpr double half_limit = 4.5;
    drawn.items.emplace_back(
        plot::line(tools, PenRole::SymbolLimit, {limit, middle - pt(half_limit)}, {limit, middle + pt(half_limit)}));
    if (!gauge.changed) drawn = plot::in_grey(tools, std::move(drawn));
    drawn.role = frame::Role::Figure;
    drawn.alternative = gauge.words;
    std::get<Group>(row.items[static_cast<std::size_t>(column)]).items.emplace_back(std::move(drawn));
}

/// From the first baseline of the first of these rows to the last of the last one.
Paper rows_height(const PartFlow& flow, const TableLines& table, std::size_t first, std::size_t end) {
    Paper height = -flow.small_leading() - pt(table.gap);
    for (std::size_t i = first; i < end; ++i)
        height += flow.small_leading() * static_cast<double>(table.rows[i].most) + pt(table.gap);
    return height;
}

Paper least_height(const PartFlow& flow, const TableLines& table) {
    const RowWords heads = broken(flow.composer.tools(), table, table.heads, section_small);
    return pt(head_height) + flow.small_leading() * (static_cast<double>(heads.most) - 1) +
           rows_height(flow, table, 0, std::min(rows_together, table.rows.size()));
}

/// Whether a page ends above a row that would fit, so that the last one does not go on alone.
bool goes_with_last(const PartFlow& flow, const TableLines& table, std::size_t row) {
    return row >= rows_together && row + rows_together == table.rows.size() &&
           flow.must_turn(rows_height(flow, table, row, table.rows.size()));
}

}  // namespace

Paper least_table_height(const PartFlow& flow, const report::PlainTable& part) {
    return least_height(flow, broken(flow, part, std::min(rows_together, part.rows.size())));
}

void place_table(const PartFlow& flow, const report::PlainTable& part) {
    const Tools& tools = flow.composer.tools();
    const TableLines table = broken(flow, part, part.rows.size());
    const Look grey{.colour = ColourRole::Grey};
    const RowWords heads = broken(tools, table, table.heads, grey);
    const Paper more_head = flow.small_leading() * (static_cast<double>(heads.most) - 1);
    Group head = plot::grouped(frame::Role::TableHead, {}), rows = plot::grouped(frame::Role::TableBody, {});
    const auto place_head = [&] {
        head.items.emplace_back(row_group(tools, table, heads, 0, heads.most, flow.composer.y, grey, frame::Role::HeadCell));
        flow.composer.y += more_head;
        flow.composer.add(rule(tools, flow.left(), flow.composer.grid().margin_right, flow.composer.y + pt(table_rule_below)));
        flow.composer.y += pt(head_height);
    };
    const auto close = [&] {
        Group whole = plot::grouped(frame::Role::Table, {});
        whole.items.emplace_back(std::exchange(head, plot::grouped(frame::Role::TableHead, {})));
        whole.items.emplace_back(std::exchange(rows, plot::grouped(frame::Role::TableBody, {})));
        flow.composer.add(std::move(whole));
        flow.composer.add(rule(tools, flow.left(), flow.composer.grid().margin_right,
                               flow.composer.y - flow.small_leading() - pt(table.gap) + pt(table_rule_below)));
    };
    flow.need(least_height(flow, table));
    if (!flow.composer.fits(more_head + pt(head_height))) flow.turn();  // above a row that is higher than a page
    place_head();
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        if (goes_with_last(flow, table, i)) {
            close();
            flow.turn();
            place_head();
        }
        const RowWords& row = table.rows[i];
        std::size_t here = lines_here(flow.composer, row.most, flow.small_leading());
        for (std::size_t from = 0; from < row.most; from += here) {
            if (here == 0 || from > 0) {
                close();
                flow.turn();
                place_head();
                here = lines_on_next(flow.composer, row.most - from, flow.small_leading());
            }
            Group made = row_group(tools, table, row, from, from + here, flow.composer.y, section_small, frame::Role::DataCell);
            if (from == 0 && i < part.gauges.size() && part.gauges[i]) add_gauge(made, tools, table, *part.gauges[i], flow.composer.y);
            rows.items.emplace_back(std::move(made));
            flow.composer.y += flow.small_leading() * static_cast<double>(here);
        }
        flow.composer.y += pt(table.gap);
    }
    close();
    flow.composer.y += pt(after_table);
}

}  // namespace wayfolio::page
