#pragma once
#include "plot/tools.hpp"

#include <string>
#include <vector>

namespace wayfolio::plan {

/// A table to be filled by hand: heads and first column are printed, all else is empty.
struct SheetTable {
    std::string first_head;
    std::vector<std::string> heads;
    struct Row {
        std::string number, words;
    };
    std::vector<Row> rows;
    std::vector<Row> fields{};  ///< rows below the others for what is written down once a run
};

/// One page of the sheet, filled from the top down.
class SheetPage {
public:
    struct Paper {
        plot::Tools tools;
    };
    explicit SheetPage(const Paper& paper);

    void heading(const std::string& words);
    void subheading(const std::string& words);
    void paragraph(const report::Text& words);
    /// A name with a line to write on.
    void field(const std::string& name);
    void gap();
    void table(const SheetTable& table);
    /// Rows of a table that the page still holds, those for fields kept free.
    [[nodiscard]] std::size_t rows_left() const;
    /// The finished page. @param title in the foot
    frame::Frame take(std::size_t page, std::size_t pages, const std::string& title);

private:
    [[nodiscard]] units::Paper right() const;
    void write(frame::Role role, const report::Text& words, plot::TypeRole type);
    void rule(units::Paper from, units::Paper to, units::Paper y);
    void head_row(const SheetTable& table, frame::Group& into);
    void body_row(const SheetTable& table, const SheetTable::Row& head, frame::Group& into);
    [[nodiscard]] units::Paper column_left(const SheetTable& table, std::size_t column) const;

    plot::Tools tools_;
    frame::Frame frame_;
    std::vector<plot::Item> rules_;
    units::Paper y_;
};

}  // namespace wayfolio::plan
