#include "page/blocks/sections/part_flow.hpp"
#include "page/spacing.hpp"
#include "page/table.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::page {
namespace {

constexpr double row_gap = 5, head_height = 17, table_rule_below = 5, after_table = 6;  // closer than other tables
/// Rows of a table that stand together on each of its pages.
constexpr std::size_t rows_together = 2;

/// One row of wrapped cells.
struct RowCells {
    std::vector<Text> words;
    std::vector<Rect> boxes;  ///< left and width of each; top unused
    std::vector<bool> numeric;
};

/// The same, broken into lines.
struct RowLines {
    std::vector<FlowingText> cells;
    std::size_t most = 1;
};

RowLines lines_of_row(const Tools& tools, const RowCells& row, const Look& look) {
    RowLines lines;
    for (std::size_t i = 0; i < row.words.size(); ++i) {
        lines.cells.emplace_back(tools, row.words[i], look, row.boxes[i].width);
        lines.most = std::max(lines.most, lines.cells.back().size());
    }
    return lines;
}

Paper row_height(const PartFlow& flow, const RowCells& row) {
    const auto lines = static_cast<double>(lines_of_row(flow.composer.tools(), row, section_small).most);
    return flow.small_leading() * (lines - 1);
}

/// The lines of a row from `first` on that stand on one page.
Group row_group(const Tools& tools, const RowCells& row, const RowLines& lines, std::size_t first, std::size_t end, Paper baseline,
                const Look& look, frame::Role role) {
    Group group = plot::grouped(frame::Role::TableRow, {});
    for (std::size_t i = 0; i < row.words.size(); ++i) {
        // Where a row goes on, its name is on the page before.
        const bool heads = role == frame::Role::HeadCell || (i == 0 && (first == 0 || first < lines.cells[i].size()));
        Group cell = plot::grouped(heads ? frame::Role::HeadCell : frame::Role::DataCell, {});
        if (heads) cell.scope = role == frame::Role::HeadCell ? frame::Scope::Column : frame::Scope::Row;
        if (!row.numeric[i])
            cell.items = lines.cells[i].part(first, end, {row.boxes[i].left, baseline}, frame::Role::Plain).group.items;
        else if (first == 0)
            plot::put(cell.items, tools, row.words[i], look, {row.boxes[i].right(), baseline}, Align::Right);
        group.items.emplace_back(std::move(cell));
    }
    return group;
}

std::vector<Rect> boxes_of(const PartFlow& flow, const report::PlainTable& table) {
    std::vector<Rect> boxes;
    Paper at = flow.left();
    for (const report::TableColumn& column : table.columns) {
        const Paper width = flow.full_width() * column.width;
        boxes.push_back({at, {}, width - pt(words_gap), {}});
        at += width;
    }
    return boxes;
}

/// Which columns hold numbers.
std::vector<bool> numbers_of(const report::PlainTable& table) {
    std::vector<bool> numbers;
    for (const report::TableColumn& column : table.columns) numbers.push_back(column.cells == report::Cells::Numbers);
    return numbers;
}

/// From the first baseline of the first of these rows to the last of the last one.
Paper rows_height(const PartFlow& flow, const report::PlainTable& part, std::size_t first, std::size_t end) {
    const auto boxes = boxes_of(flow, part);
    const auto numbers = numbers_of(part);
    Paper height = -flow.small_leading() - pt(row_gap);
    for (std::size_t i = first; i < end; ++i)
        height += row_height(flow, {part.rows[i], boxes, numbers}) + flow.small_leading() + pt(row_gap);
    return height;
}

/// Whether a page ends above a row that would fit, so that the last one does not go on alone.
bool goes_with_last(const PartFlow& flow, const report::PlainTable& part, std::size_t row) {
    return row >= rows_together && row + rows_together == part.rows.size() &&
           flow.must_turn(rows_height(flow, part, row, part.rows.size()));
}

}  // namespace

Paper least_table_height(const PartFlow& flow, const report::PlainTable& part) {
    return pt(head_height) + rows_height(flow, part, 0, std::min(rows_together, part.rows.size()));
}

void place_table(const PartFlow& flow, const report::PlainTable& part) {
    const Tools& tools = flow.composer.tools();
    const auto boxes = boxes_of(flow, part);
    const auto numbers = numbers_of(part);
    Group head = plot::grouped(frame::Role::TableHead, {}), rows = plot::grouped(frame::Role::TableBody, {});
    const auto place_head = [&] {
        RowCells cells{{}, boxes, numbers};
        for (const report::TableColumn& column : part.columns) cells.words.emplace_back(column.head);
        const Look grey{.colour = ColourRole::Grey};
        const RowLines lines = lines_of_row(tools, cells, grey);
        head.items.emplace_back(row_group(tools, cells, lines, 0, lines.most, flow.composer.y, grey, frame::Role::HeadCell));
        flow.composer.add(rule(tools, flow.left(), flow.composer.grid().margin_right, flow.composer.y + pt(table_rule_below)));
        flow.composer.y += pt(head_height);
    };
    const auto close = [&] {
        Group table = plot::grouped(frame::Role::Table, {});
        table.items.emplace_back(std::exchange(head, plot::grouped(frame::Role::TableHead, {})));
        table.items.emplace_back(std::exchange(rows, plot::grouped(frame::Role::TableBody, {})));
        flow.composer.add(std::move(table));
        flow.composer.add(rule(tools, flow.left(), flow.composer.grid().margin_right,
                               flow.composer.y - flow.small_leading() - pt(row_gap) + pt(table_rule_below)));
    };
    flow.need(least_table_height(flow, part));
    if (!flow.composer.fits(pt(head_height))) flow.turn();  // above a row that is higher than a page
    place_head();
    for (std::size_t i = 0; i < part.rows.size(); ++i) {
        if (goes_with_last(flow, part, i)) {
            close();
            flow.turn();
            place_head();
        }
        const RowCells cells{part.rows[i], boxes, numbers};
        const RowLines lines = lines_of_row(tools, cells, section_small);
        std::size_t here = lines_here(flow.composer, lines.most, flow.small_leading());
        for (std::size_t from = 0; from < lines.most; from += here) {
            if (here == 0 || from > 0) {
                close();
                flow.turn();
                place_head();
                here = lines_on_next(flow.composer, lines.most - from, flow.small_leading());
            }
            rows.items.emplace_back(
                row_group(tools, cells, lines, from, from + here, flow.composer.y, section_small, frame::Role::DataCell));
            flow.composer.y += flow.small_leading() * static_cast<double>(here);
        }
        flow.composer.y += pt(row_gap);
    }
    close();
    flow.composer.y += pt(after_table);
}

}  // namespace wayfolio::page
