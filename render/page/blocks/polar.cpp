#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"
#include "plot/figures/figures.hpp"

#include <algorithm>

namespace wayfolio::page {

void place(Composer& composer, const report::PolarOpening& block) {
    const auto& grid = composer.grid();
    place_opening(composer, block.opening);
    const Paper top = composer.on_grid(composer.y), side = std::min(grid.wide_right - grid.left, composer.last_baseline() - top);
    plot::DrawnFigure drawn = plot::polar_figure(composer.tools(), block.plot, {grid.left, top, side, side});
    constexpr double key_below_caption = 24;
    const Paper caption = margin_caption(composer, drawn.group, block.figure_number, block.caption, top + pt(beside_top));
    margin_key(composer, key_of(block.plot, block.runs_per_direction), caption + pt(key_below_caption));
    composer.add(std::move(drawn.group));
    constexpr double below = 24;
    composer.y = composer.on_grid(std::max(drawn.bottom + pt(below), composer.margin_free() + grid.baseline_step));
    place_sections(composer, block.sections, block.opening.label);
}

}  // namespace wayfolio::page
