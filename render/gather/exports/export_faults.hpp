#pragma once
#include "gather/exports/dialect.hpp"
#include "input/problem.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace wayfolio::gather {

/// A place in an export: line and column of a text, row and column of a sheet, from 1; 0 where unknown.
struct Spot {
    std::uint32_t line = 0, column = 0;
};

/// Collects the faults of one export. What is wrong in the same way a thousand times is told a few times and then counted, so that other
/// faults are seen too.
class ExportFaults {
public:
    /// So many faults of one sort are told with their places.
    static constexpr std::size_t told = 3;

    explicit ExportFaults(std::string file) : file_(std::move(file)) {}

    /// The sheet that places lie in from now on; "" for a text.
    void in_sheet(std::string sheet) { sheet_ = std::move(sheet); }
    /// @param sort what makes faults one sort: what is expected, as a rule with the column
    void add(Spot at, std::string found, std::string expected, std::string hint = {}, std::string sort = {});
    void add(const Cell& at, std::string found, std::string expected, std::string hint = {}, std::string sort = {});
    [[nodiscard]] bool any() const { return !problems_.empty(); }
    [[nodiscard]] const std::string& file() const { return file_; }
    /// All faults in the order of their finding, each sort that was cut off with how many more there are.
    [[nodiscard]] std::vector<input::Problem> problems() const;
    /// "line 12 of x.csv", "cell B7 of x.ods".
    [[nodiscard]] std::string place_words(Spot at) const;

private:
    struct Sort {
        std::size_t count = 0, last = 0;
    };
    std::string file_, sheet_;
    std::vector<input::Problem> problems_;
    std::map<std::string, Sort> sorts_;
};

/// "B7" for row 7, column 2.
std::string cell_name(Spot at);

/// The text in quotes, for a message: empty cells say so.
std::string shown(const Cell& cell);

}  // namespace wayfolio::gather
