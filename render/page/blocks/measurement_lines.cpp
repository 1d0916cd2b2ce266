#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "plot/figures/figures.hpp"

#include <algorithm>

namespace wayfolio::page {

void place(Composer& composer, const report::LinesOpening& block) {
    const auto& grid = composer.grid();
    const Paper beside = place_opening(composer, block.opening);
    constexpr double below = 24, notes_below_caption = 22, next_line = 16, of_panel = 0.64;
    const Paper top = composer.y - composer.tools().layout.size(SizeRole::BlockGap) / 2;
    plot::DrawnFigure drawn =
        plot::lines_figure(composer.tools(), block.drawing,
                           {grid.left, top, grid.wide_right - grid.left, composer.tools().layout.size(SizeRole::PanelHeight) * of_panel});
    Paper last = margin_caption(composer, drawn.group, block.figure_number, block.caption, beside) + pt(notes_below_caption);
    for (const auto& [name, notes] : block.margin) last = margin_notes(composer, name, notes, last) + pt(next_line);
    composer.add(std::move(drawn.group));
    composer.y = composer.on_grid(std::max(drawn.bottom + pt(below), composer.margin_free() + grid.baseline_step));
    place_sections(composer, block.sections, block.opening.label);
}

}  // namespace wayfolio::page
