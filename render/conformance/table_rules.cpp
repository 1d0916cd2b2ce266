#include "conformance/read/structure.hpp"

#include <algorithm>

namespace wayfolio::conformance {

namespace {

struct Row {
    long long width = 0;  ///< with what reaches into it from rows above
    bool has_other_kids = false;
};

/// A cell that spans rows.
struct Reaching {
    long long width, rows_left;
};

class TableChecker {
public:
    TableChecker(const CheckedFile& subject, const Structure& structure, int table)
        : subject_(subject), structure_(structure), table_(table) {
        rows_of(table);
    }
    void report() const {
        const std::string where = "table, element " + std::to_string(table_);
        const auto fault = [&](const char* rule, const char* what) { subject_.fault(rule, where, what); };
        if (rows_.empty() || other_kids_ || std::ranges::any_of(rows_, &Row::has_other_kids))
            fault("table-cells", "something else than rows of cells");
        const auto wider = [&](const Row& row) { return row.width != rows_.front().width; };
        if (std::ranges::any_of(rows_, wider)) fault("table-cells", "rows are not as wide as each other");
        if (!reaching_.empty()) fault("table-cells", "a cell spans more rows than there are");
        if (without_scope_ > 0) fault("table-scopes", "a head cell without scope");
        if (empty_heads_ > 0) fault("table-empty-heads", "a head cell without words");
        // Two columns are names with their values, and need no words above them.
        const bool wide = std::ranges::any_of(rows_, [](const Row& row) { return row.width > 2; });
        if (wide && row_heads_ > 0 && column_heads_ == 0) fault("table-columns", "row heads, but no column heads");
    }

private:
    [[nodiscard]] const Element& element(int place) const { return structure_.elements[static_cast<std::size_t>(place)]; }
    void rows_of(int part) {
        for (const int kid : element(part).kids) {
            const std::string& type = element(kid).type;
            if (type == "TR") row(kid);
            else if (type == "THead" || type == "TBody" || type == "TFoot") rows_of(kid);
            else if (type != "Caption") other_kids_ = true;
        }
    }
    void row(int place) {
        Row made;
        for (Reaching& cell : reaching_) {
            made.width += cell.width;
            --cell.rows_left;
        }
        for (const int kid : element(place).kids) {
            const Element& cell = element(kid);
            if (cell.type != "TH" && cell.type != "TD") made.has_other_kids = true;
            Handle columns = attribute(cell, "/Table", "/ColSpan"), rows = attribute(cell, "/Table", "/RowSpan"),
                   scope = attribute(cell, "/Table", "/Scope");
            constexpr long long widest = 100'000;  // more would overflow the sum
            const long long width = columns.isInteger() ? std::clamp(columns.getIntValue(), 1LL, widest) : 1;
            made.width += width;
            if (rows.isInteger() && rows.getIntValue() > 1) reaching_.push_back({width, rows.getIntValue() - 1});
            if (cell.type != "TH") continue;
            if (!scope.isName()) ++without_scope_;
            if (!cell.has_words) ++empty_heads_;
            row_heads_ += scope.isNameAndEquals("/Row") ? 1 : 0;
            column_heads_ += scope.isNameAndEquals("/Column") || scope.isNameAndEquals("/Both") ? 1 : 0;
        }
        std::erase_if(reaching_, [](const Reaching& cell) { return cell.rows_left == 0; });
        rows_.push_back(made);
    }

    const CheckedFile& subject_;
    const Structure& structure_;
    int table_, without_scope_ = 0, empty_heads_ = 0, row_heads_ = 0, column_heads_ = 0;
    bool other_kids_ = false;
    std::vector<Row> rows_;
    std::vector<Reaching> reaching_;
};

/// ISO 32000-1, 14.8.4.3.4: parts of a table stand in a table, rows in it or its parts, cells in rows.
bool stands_well(const std::string& type, const std::string& parent) {
    const bool part = type == "THead" || type == "TBody" || type == "TFoot";
    if (part) return parent == "Table";
    if (type == "TR") return parent == "Table" || parent == "THead" || parent == "TBody" || parent == "TFoot";
    return (type != "TH" && type != "TD") || parent == "TR";
}

}  // namespace

void check_tables(const CheckedFile& subject, const Structure& structure) {
    for (const Element& element : structure.elements) {
        const std::string parent = element.parent < 0 ? "" : structure.elements[static_cast<std::size_t>(element.parent)].type;
        if (!stands_well(element.type, parent))
            subject.fault("table-cells", "an element " + element.type, "stands in " + (parent.empty() ? "nothing" : parent));
    }
    for (std::size_t i = 0; i < structure.elements.size(); ++i)
        if (structure.elements[i].type == "Table") TableChecker(subject, structure, static_cast<int>(i)).report();
}

}  // namespace wayfolio::conformance
