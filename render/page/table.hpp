#pragma once
#include "page/composer.hpp"

namespace wayfolio::page {

enum class ColumnAlign { Left, Right, Decimal };

/// A column: where its text stands. For Decimal, `x` is where whole numbers end and decimal marks begin.
struct Column {
    Paper x;
    ColumnAlign align = ColumnAlign::Left;
};

/// Collects rows as tagged groups; the caller decides heights and page breaks.
class Table {
public:
    Table(const Tools& tools, std::vector<Column> columns) : tools_(tools), columns_(std::move(columns)) {}

    /// @param key same non-empty key on several pages: one table broken over pages
    void begin(const std::string& key);
    void head(const std::vector<Text>& cells, Paper baseline);
    /// The first cell heads its row.
    void row(const std::vector<Text>& cells, Paper baseline, const Look& look = {});
    /// A cell's text that wraps: placed by the caller, kept with the row that was added last.
    void add_to_last_row(Group cell);
    /// Rows of cells that the caller made: they may span columns or rows.
    void add_head(std::vector<Group> cells);
    void add_row(std::vector<Group> cells);
    Group take();

    [[nodiscard]] Group head_cell(const Text& words, std::size_t column, Paper baseline) const;
    [[nodiscard]] Group data_cell(const Text& words, std::size_t column, Paper baseline, const Look& look = {}) const;
    [[nodiscard]] Group row_head(const Text& words, std::size_t column, Paper baseline) const;

private:
    [[nodiscard]] Group cell(const Text& words, std::size_t column, Paper baseline, const Look& look, frame::Role role,
                             frame::Scope scope) const;
    const Tools& tools_;
    std::vector<Column> columns_;
    Group table_, head_, body_;
};

/// Puts a number so that its whole part ends at `x`.
void put_decimal(std::vector<Item>& into, const Tools& tools, const Text& words, const Look& look, Point at);

/// A horizontal hairline.
Group rule(const Tools& tools, Paper from, Paper to, Paper y);

}  // namespace wayfolio::page
