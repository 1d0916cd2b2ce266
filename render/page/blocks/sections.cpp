#include "page/blocks/blocks.hpp"

#include "page/blocks/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"

namespace wayfolio::page {
namespace {

constexpr double above_signatures = 30, signatures_below_text = 24, below_signatures = 24;

Paper signatures_room(const Composer& composer, const report::Sections& block) {
    return pt(above_signatures) + signatures_height(composer, block.signatures) + pt(below_signatures);
}

/// Signatures never stand alone on a page: the section before them turns the page with them where both fit on one.
void keep_with_signatures(Composer& composer, const report::Sections& block) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    turn_page(trial, block.opening.label);
    const Paper begun = trial.y;
    place_section(trial, block.sections.back(), block.opening.label);
    const bool one_page = trial.page_number() == 1 && trial.fits(signatures_room(composer, block));
    if (one_page && !composer.fits(trial.y - begun + signatures_room(composer, block))) turn_page(composer, block.opening.label);
}

}  // namespace

void place(Composer& composer, const report::Sections& block) {
    place_opening(composer, block.opening);
    const auto& grid = composer.grid();
    const bool signed_here = !block.signatures.empty() && !block.sections.empty();
    const std::span<const report::Section> sections = block.sections;
    place_sections(composer, signed_here ? sections.first(sections.size() - 1) : sections, block.opening.label);
    if (signed_here) {
        keep_with_signatures(composer, block);
        place_section(composer, sections.back(), block.opening.label);
    }
    if (!block.signatures.empty()) {
        if (!composer.fits(signatures_room(composer, block))) turn_page(composer, block.opening.label);
        place_signatures(composer, block.signatures, composer.y + pt(above_signatures), block.opening.label);
    }
    if (block.ends_report) {
        composer.y = composer.on_grid(composer.y + pt(signatures_below_text));
        if (!composer.fits({})) turn_page(composer, block.opening.label);
        composer.add(text_line(composer.tools(), "End of report", {.colour = ColourRole::Grey}, {grid.left, composer.y}, Align::Left,
                               frame::Role::Paragraph));
    }
}

}  // namespace wayfolio::page
