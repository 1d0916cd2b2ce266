#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "plot/figures/figures.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

constexpr double plot_below = 26, words_drop = 2.7;

void place_record(Composer& composer, const report::EnvironmentOpening& block) {
    const auto& grid = composer.grid();
    const Tools& tools = composer.tools();
    if (!composer.fits(plot::record_height(tools, *block.record))) turn_page(composer, block.opening.label);
    const Paper top = composer.y;
    plot::RecordFigure figure = plot::record_figure(tools, *block.record, grid.left, grid.wide_right, top, plot::CurveWords::None);
    margin_caption(composer, figure.drawn.group, block.figure_number, block.caption, top);
    for (const auto& [level, words] : figure.words) margin_notes(composer, "", {words}, level + pt(words_drop));
    composer.add(std::move(figure.drawn.group));
    composer.y = composer.on_grid(std::max(figure.drawn.bottom + pt(plot_below), composer.margin_free() + grid.baseline_step));
}

}  // namespace

void place(Composer& composer, const report::EnvironmentOpening& block) {
    place_opening(composer, block.opening);
    if (block.record) place_record(composer, block);
    place_sections(composer, block.sections, block.opening.label);
}

}  // namespace wayfolio::page
