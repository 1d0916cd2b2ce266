#include "page/blocks/blocks.hpp"

#include "page/blocks/sections/section_parts.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"

#include <utility>

namespace wayfolio::page {
namespace {

constexpr double above_signatures = 26, end_below_text = 24;

/// The line of the first signatures.
Paper signatures_at(const Composer& composer) { return composer.last_ink() + pt(above_signatures); }

Paper signatures_end(const Composer& composer, const report::Sections& block) {
    return signatures_at(composer) + signatures_height(composer, block.signatures);
}

bool signatures_fit(const Composer& composer, const report::Sections& block) {
    return composer.fits(signatures_end(composer, block) - composer.y);
}

/// The last section in two: what may stand on the page before, and the last items of a list, which stay with the signatures.
std::pair<report::Section, report::Section> parted(const report::Section& section) {
    constexpr std::size_t kept = 2;
    report::Section before = section, after{.heading = "", .parts = {}, .set_as = section.set_as};
    auto* list = before.parts.empty() ? nullptr : std::get_if<report::BulletList>(&before.parts.back());
    if (!list || list->items.size() < 2 * kept) return {{}, section};
    const auto first_kept = list->items.end() - static_cast<std::ptrdiff_t>(kept);
    after.parts.emplace_back(report::BulletList{{first_kept, list->items.end()}});
    list->items.erase(first_kept, list->items.end());
    return {std::move(before), std::move(after)};
}

/// Signatures never stand alone on a page: what stands above them turns the page with them where both fit on one.
void place_with_signatures(Composer& composer, const report::Sections& block) {
    const std::string& label = block.opening.label;
    const auto fits_here = [&](const report::Section& section) {
        const PageNumbers none;
        Composer trial(composer.tools(), none);
        turn_page(trial, label);
        const Paper begun = trial.y;
        place_section(trial, section, label);
        return trial.page_number() > 1 || composer.fits(signatures_end(trial, block) - begun);
    };
    if (fits_here(block.sections.back())) {
        place_section(composer, block.sections.back(), label);
        return;
    }
    const auto [before, after] = parted(block.sections.back());
    if (!before.parts.empty()) place_section(composer, before, label);
    if (!fits_here(after)) turn_page(composer, label);
    place_section(composer, after, label);
}

/// Whether the signatures find room on the page on which the sections end.
bool leave_room_for_signatures(const Composer& composer, Paper margin_free, const report::Sections& block) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    trial.y = composer.y;
    trial.margin_free() = margin_free;
    place_sections(trial, block.sections, block.opening.label);
    return signatures_fit(trial, block);
}

/// The last section stands with the signatures where they cannot stand below all.
void place_above_signatures(Composer& composer, const report::Sections& block) {
    const std::span<const report::Section> sections = block.sections;
    if (leave_room_for_signatures(composer, composer.margin_free(), block)) {
        place_sections(composer, sections, block.opening.label);
        return;
    }
    place_sections(composer, sections.first(sections.size() - 1), block.opening.label);
    place_with_signatures(composer, block);
}

/// Beside the last signatures, whose room ends with the wide column; below the text where nobody signs.
void place_end(Composer& composer, const report::Sections& block) {
    const bool beside = !block.signatures.empty();
    if (!beside) composer.y = composer.on_grid(composer.y + pt(end_below_text));
    if (!composer.fits({})) turn_page(composer, block.opening.label);
    const Point at{beside ? composer.grid().margin_left : composer.grid().left, composer.y};
    composer.add(text_line(composer.tools(), "End of report", {.colour = ColourRole::Grey}, at, Align::Left, frame::Role::Paragraph));
}

}  // namespace

void place(Composer& composer, const report::Sections& block) {
    place_text_opening(composer, block.opening);
    if (!block.signatures.empty() && !block.sections.empty()) place_above_signatures(composer, block);
    else place_sections(composer, block.sections, block.opening.label);
    if (!block.signatures.empty()) {
        if (!signatures_fit(composer, block)) turn_page(composer, block.opening.label);
        place_signatures(composer, block.signatures, signatures_at(composer), block.opening.label);
    }
    if (block.ends_report) place_end(composer, block);
}

}  // namespace wayfolio::page
