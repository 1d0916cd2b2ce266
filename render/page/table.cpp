#include "page/table.hpp"

#include "plot/shapes.hpp"

#include <algorithm>
#include <iterator>

namespace wayfolio::page {
namespace {

/// The part of a number up to its decimal mark (or all of it).
Text whole_part(const Text& words, char decimal_mark) {
    Text whole;
    for (const report::Span& span : words.spans()) {
        // A note mark or a ± ends the number too.
        auto end = span.text.find(decimal_mark);
        const auto sign = span.text.find("\u00a0±");
        if (sign != std::string::npos && (end == std::string::npos || sign < end)) end = sign;
        const std::string part = span.text.substr(0, end);
        if (span.emphasis == report::Emphasis::Strong)
            whole.strong(part);
        else
            whole.plain(part);
        if (end != std::string::npos) break;
    }
    return whole;
}

Group row_of(std::vector<Group> cells) {
    Group row = plot::grouped(frame::Role::TableRow, {});
    row.items.reserve(cells.size());  // a report holds thousands of rows: room for cells that never come is a tenth of its memory
    std::ranges::move(cells, std::back_inserter(row.items));
    return row;
}

}  // namespace

void put_decimal(std::vector<Item>& into, const Tools& tools, const Text& words, const Look& look, Point at) {
    const Paper before = plot::width_of(tools, whole_part(words, tools.layout.decimal_mark), look);
    plot::put(into, tools, words, look, {at.x - before, at.y});
}

Group rule(const Tools& tools, Paper from, Paper to, Paper y) {
    return artifact({plot::line(tools, PenRole::TableRule, {from, y}, {to, y})});
}

void Table::begin(const std::string& key) {
    table_ = plot::grouped(frame::Role::Table, {});
    table_.continues = key;
    head_ = plot::grouped(frame::Role::TableHead, {});
    body_ = plot::grouped(frame::Role::TableBody, {});
}

Group Table::cell(const Text& words, std::size_t column, Paper baseline, const Look& look, frame::Role role, frame::Scope scope) const {
    Group group;
    group.role = role;
    group.scope = scope;
    if (words.empty() || column >= columns_.size()) return group;
    const Point at{columns_[column].x, baseline};
    switch (columns_[column].align) {
        case ColumnAlign::Left:
            plot::put(group.items, tools_, words, look, at);
            break;
        case ColumnAlign::Right:
            plot::put(group.items, tools_, words, look, at, Align::Right);
            break;
        case ColumnAlign::Decimal:
            put_decimal(group.items, tools_, words, look, at);
            break;
    }
    return group;
}

Group Table::head_cell(const Text& words, std::size_t column, Paper baseline) const {
    const Look grey{.type = TypeRole::Small, .colour = ColourRole::Grey};
    return cell(words, column, baseline, grey, frame::Role::HeadCell, frame::Scope::Column);
}

Group Table::data_cell(const Text& words, std::size_t column, Paper baseline, const Look& look) const {
    return cell(words, column, baseline, look, frame::Role::DataCell, frame::Scope::None);
}

Group Table::row_head(const Text& words, std::size_t column, Paper baseline) const {
    return cell(words, column, baseline, {}, frame::Role::HeadCell, frame::Scope::Row);
}

void Table::head(const std::vector<Text>& cells, Paper baseline) {
    std::vector<Group> row;
    for (std::size_t i = 0; i < cells.size(); ++i) row.push_back(head_cell(cells[i], i, baseline));
    add_head(std::move(row));
}

void Table::row(const std::vector<Text>& cells, Paper baseline, const Look& look) {
    Group row = plot::grouped(frame::Role::TableRow, {});
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const bool heads = i == 0;
        row.items.emplace_back(cell(cells[i], i, baseline, look, heads ? frame::Role::HeadCell : frame::Role::DataCell,
                                    heads ? frame::Scope::Row : frame::Scope::None));
    }
    body_.items.emplace_back(std::move(row));
}

void Table::add_head(std::vector<Group> cells) { head_.items.emplace_back(row_of(std::move(cells))); }

void Table::add_row(std::vector<Group> cells) { body_.items.emplace_back(row_of(std::move(cells))); }

void Table::add_to_last_row(Group cell) { std::get<Group>(body_.items.back()).items.emplace_back(std::move(cell)); }

Group Table::take() {
    if (!head_.items.empty()) table_.items.emplace_back(std::move(head_));
    table_.items.emplace_back(std::move(body_));
    return std::move(table_);
}

}  // namespace wayfolio::page
