#pragma once
#include "page/table.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// Room left and right of the decimal position that a column of numbers needs.
struct NumberRoom {
    Paper before, after;
    std::vector<std::string> forms{};  ///< what was measured, with a zero for each digit: all digits are as wide
    void add(const Tools& tools, const Text& words);
};

/// Where the columns of a readings table stand, from the width of its numbers. Few runs leave the margin column to notes;
/// more take the whole width; still more take several lines for each target.
struct ReadingsGrid {
    Paper number, position, marker;      ///< x of whole-number ends, and of the direction's marker
    std::vector<Paper> runs;             ///< decimal positions of one line of readings
    Paper run_pitch, mean, s, reversal, repeatability, right;
    double position_tail = 0, run_tail = 0, statistics_tail = 0;  ///< paper right of the decimal position, in points
    std::size_t runs_per_line = 0;
    bool wide = false;

    [[nodiscard]] double lines_for(std::size_t readings) const;
    [[nodiscard]] std::vector<Column> columns() const;
    [[nodiscard]] std::vector<Column> head_columns() const;
};

ReadingsGrid readings_grid(const Composer& composer, const report::Readings& block);

}  // namespace wayfolio::page
