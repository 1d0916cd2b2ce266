#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "plot/figures/figures.hpp"

#include <algorithm>

namespace wayfolio::page {

void place(Composer& composer, const report::SquarenessOpening& block) {
    const auto& grid = composer.grid();
    const Paper beside = place_opening(composer, block.opening);
    margin_verdict(composer, block.verdict, beside, block.verdict.explanation);
    if (block.drawing) {
        constexpr double below = 24, notes_below_caption = 22, of_panel = 1.5;
        const Paper top = composer.on_grid(composer.y + pt(title_above));
        plot::DrawnFigure drawn = plot::square_figure(
            composer.tools(), *block.drawing,
            {grid.left, top, grid.wide_right - grid.left, composer.tools().layout.size(SizeRole::PanelHeight) * of_panel});
        const Paper caption = margin_caption(composer, drawn.group, block.figure_number, block.caption, top + pt(beside_top));
        margin_notes(composer, block.margin_heading, block.margin, caption + pt(notes_below_caption));
        composer.add(std::move(drawn.group));
        composer.y = composer.on_grid(std::max(drawn.bottom + pt(below), composer.margin_free() + grid.baseline_step));
    }
    place_sections(composer, block.sections, block.opening.label);
}

}  // namespace wayfolio::page
