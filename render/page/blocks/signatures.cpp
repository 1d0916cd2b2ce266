#include "page/blocks/blocks.hpp"

#include "page/opening.hpp"
#include "plot/shapes.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

constexpr double words_below = 9, below_words = 3, date_width = 34, signature_gap = 12, date_gap = 6, between_rows = 28;

/// Three share one row, narrower, rather than take the room of a second.
std::size_t per_row(std::size_t signatures) { return signatures == 3 ? 3 : 2; }

struct Cell {
    Paper left, line_end, date_left, right;
};

Cell cell_of(const Composer& composer, std::size_t place, std::size_t columns) {
    const auto& grid = composer.grid();
    const Paper width = (grid.wide_right - grid.left - pt(signature_gap) * static_cast<double>(columns - 1)) / static_cast<double>(columns);
    const Paper left = grid.left + (width + pt(signature_gap)) * static_cast<double>(place % columns);
    const Paper line_end = left + width - pt(date_width + date_gap);
    return {left, line_end, line_end + pt(date_gap), left + width};
}

Text words_of(const report::Signature& signature) { return Text(signature.role).quiet("  " + signature.name); }

/// Height of each row of signatures below its line.
std::vector<Paper> row_heights(const Composer& composer, const std::vector<report::Signature>& signatures) {
    const std::size_t columns = per_row(signatures.size());
    std::vector<Paper> heights((signatures.size() + columns - 1) / columns);
    for (std::size_t i = 0; i < signatures.size(); ++i) {
        const Cell cell = cell_of(composer, i, columns);
        const Paper words = paragraph_height(composer.tools(), words_of(signatures[i]), {}, cell.line_end - cell.left);
        heights[i / columns] =
            std::max(heights[i / columns], pt(words_below) + words + pt(below_words));
    }
    return heights;
}

}  // namespace

Paper signatures_height(const Composer& composer, const std::vector<report::Signature>& signatures) {
    Paper height{};
    for (const Paper row : row_heights(composer, signatures)) height += row + (height > Paper{} ? pt(between_rows) : Paper{});
    return height;
}

void place_signatures(Composer& composer, const std::vector<report::Signature>& signatures, Paper line_at, const std::string& label) {
    const Tools& tools = composer.tools();
    const std::vector<Paper> heights = row_heights(composer, signatures);
    const std::size_t columns = per_row(signatures.size());
    Paper last = line_at;
    composer.y = line_at;
    for (std::size_t i = 0; i < signatures.size(); ++i) {
        if (i > 0 && i % columns == 0) composer.y += heights[i / columns - 1] + pt(between_rows);
        if (i % columns == 0 && !composer.fits(heights[i / columns])) {
            turn_page(composer, label);
            composer.y += pt(between_rows);
        }
        const Paper y = composer.y;
        const Cell cell = cell_of(composer, i, columns);
        composer.add(artifact({plot::line(tools, PenRole::Signature, {cell.left, y}, {cell.line_end, y}),
                               plot::line(tools, PenRole::Signature, {cell.date_left, y}, {cell.right, y})}));
        Placed placed = paragraph(tools, words_of(signatures[i]), {}, {cell.left, y + pt(words_below)}, cell.line_end - cell.left);
        last = i % columns == 0 ? placed.last : std::max(last, placed.last);
        composer.add(std::move(placed.group));
        composer.add(text_line(tools, "date", {.colour = ColourRole::Grey}, {cell.date_left, y + pt(words_below)}, Align::Left,
                               frame::Role::Paragraph));
    }
    composer.y = last;
}

}  // namespace wayfolio::page
