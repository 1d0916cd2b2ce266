#include "page/blocks/blocks.hpp"

#include "plot/shapes.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

constexpr std::size_t per_row = 2;
constexpr double row_height = 40, words_below = 13, date_width = 34, gap = 12, date_gap = 6;

}  // namespace

Paper signatures_height(const std::vector<report::Signature>& signatures) {
    const std::size_t rows = (signatures.size() + per_row - 1) / per_row;
    return pt(words_below + row_height * (rows > 0 ? static_cast<double>(rows - 1) : 0) + 10);
}

Paper place_signatures(Composer& composer, const std::vector<report::Signature>& signatures, Paper line_at) {
    const Tools& tools = composer.tools();
    const auto& grid = composer.grid();
    const Paper half = (grid.wide_right - grid.left - pt(gap)) / 2;
    Paper y = line_at, last = line_at;
    for (std::size_t i = 0; i < signatures.size(); ++i) {
        if (i > 0 && i % per_row == 0) y += pt(row_height);
        const Paper left = grid.left + (half + pt(gap)) * static_cast<double>(i % per_row);
        const Paper line_end = left + half - pt(date_width + date_gap), date_left = line_end + pt(date_gap);
        composer.add(artifact({plot::line(tools, "signature", {left, y}, {line_end, y}), plot::line(tools, "signature", {date_left, y}, {left + half, y})}));
        const Text words = Text(signatures[i].role).quiet("  " + signatures[i].name);
        Placed placed = paragraph(tools, words, {}, {left, y + pt(words_below)}, line_end - left);
        last = std::max(last, placed.last);
        composer.add(std::move(placed.group));
        composer.add(text_line(tools, "date", {.colour = "grey"}, {date_left, y + pt(words_below)}, Align::Left, frame::Role::Paragraph));
    }
    return last;
}

}  // namespace wayfolio::page
