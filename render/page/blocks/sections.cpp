#include "page/blocks/blocks.hpp"

#include "page/blocks/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"

namespace wayfolio::page {

void place(Composer& composer, const report::Sections& block) {
    constexpr double least = 220;
    composer.begin_block(pt(least));
    place_opening(composer, block.opening);
    const auto& grid = composer.grid();
    for (const report::Section& section : block.sections) place_section(composer, section, block.opening.label);
    if (!block.signatures.empty()) {
        constexpr double above = 30;
        if (!composer.fits(pt(above) + signatures_height(composer, block.signatures) + pt(24))) {
            composer.new_page();
            place_continued(composer, block.opening.label);
        }
        composer.y = place_signatures(composer, block.signatures, composer.y + pt(above));
    }
    if (block.ends_report) {
        composer.y = composer.on_grid(composer.y + pt(24));
        composer.add(text_line(composer.tools(), "End of report", {.colour = "grey"}, {grid.left, composer.y}, Align::Left, frame::Role::Paragraph));
    }
}

}  // namespace wayfolio::page
