#include "page/filling/filled_part.hpp"

#include "page/blocks/blocks.hpp"
#include "page/filling/least_height.hpp"
#include "page/opening.hpp"

#include <algorithm>
#include <span>

namespace wayfolio::page {
namespace {

const std::string& label_of(const report::Block& block) {
    return std::visit([](const auto& one) -> const std::string& { return one.opening.label; }, block);
}

/// Whether panels that begin at a height leave much of the page empty, as the next one finds no room there.
bool breaks_early(const Composer& composer, const report::Panels& block, Paper top) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    trial.y = top;
    place(trial, block);
    const std::vector<Draft> pages = trial.take();
    return pages.size() > 1 && composer.empty_share(pages.front()) > most_empty;
}

/// A table of readings that one page holds is not parted: it stands here whole, or begins the next page. A longer one begins anywhere.
bool stands_here_or_nowhere(const Composer& composer, const report::Readings& readings, Paper top) {
    const Paper height = height_alone(composer, readings);
    return height >= composer.grid().height || composer.fits(top - composer.y + height);
}

/// Whether the curve of a compensation alone finds room on a page that would end early: its table goes on behind it.
bool begins_with_its_curve(const Composer& composer, const report::Block& block) {
    const auto* const whole = std::get_if<report::Compensation>(&block);
    if (!whole || !composer.may_share_page || composer.page_number() == 0 || composer.empty_share() <= nearly_early) return false;
    report::Compensation curve = *whole;
    curve.sections.clear();
    curve.points.rows.clear();
    const Paper height = height_alone(composer, report::Block(std::move(curve)));
    return composer.fits(below_all(composer, block) - composer.y + height);
}

/// Blocks placed again, of which the first begins a page.
/// @return whether each of them, and all that has an anchor, stands on the page on which it stood
bool place_again(Composer& again, std::span<const PlacedBlock> blocks, const PageNumbers& anchors) {
    const std::size_t before = blocks.front().page;
    bool kept = true;
    for (const PlacedBlock& placed : blocks) {
        again.may_share_page = &placed != &blocks.front();
        kept &= before + place_block(again, *placed.block).page == placed.page;
    }
    for (const auto& [anchor, page] : again.anchors()) kept &= static_cast<int>(before) + page == anchors.at(anchor);
    return kept;
}

}  // namespace

bool may_begin_below(const report::Block& block) {
    return !std::holds_alternative<report::Answer>(block) && !std::holds_alternative<report::PositioningOpening>(block) &&
           !std::holds_alternative<report::PolarOpening>(block);
}

bool shares_its_end(const report::Block& block) { return !std::holds_alternative<report::Answer>(block); }

bool begins_here(const Composer& composer, const report::Block& block) {
    if (!composer.may_share_page || !may_begin_below(block)) return false;
    const Paper top = below_all(composer, block);
    if (!composer.fits(top - composer.y + least_height(composer, block))) return false;
    if (const auto* const readings = std::get_if<report::Readings>(&block); readings && composer.empty_share() <= nearly_early)
        return stands_here_or_nowhere(composer, *readings, top);
    const auto* const panels = std::get_if<report::Panels>(&block);
    return panels == nullptr || panels->panels.size() < 2 || !breaks_early(composer, *panels, top);
}

PlacedBlock place_block(Composer& composer, const report::Block& block) {
    const bool below = begins_here(composer, block) || begins_with_its_curve(composer, block);
    if (below) composer.y = below_all(composer, block);
    else composer.new_page();
    const std::size_t page = static_cast<std::size_t>(composer.page_number()) - 1;
    composer.asked_for_pages = false;
    std::visit([&](const auto& one) { place(composer, one); }, block);
    while (composer.has_margin_rests()) turn_page(composer, label_of(block));
    return {.block = &block, .page = page, .begins_page = !below, .names_pages = composer.asked_for_pages};
}

bool name_pages(FilledPart& part, const Tools& tools, const PageNumbers& known) {
    for (auto first = part.blocks.begin(); first != part.blocks.end();) {
        const auto end = std::find_if(first + 1, part.blocks.end(), [](const PlacedBlock& placed) { return placed.begins_page; });
        const std::size_t end_page = end == part.blocks.end() ? part.drafts.size() : end->page;
        if (std::any_of(first, end, [](const PlacedBlock& placed) { return placed.names_pages; })) {
            Composer again(tools, known);
            if (!place_again(again, {first, end}, part.anchors)) return false;
            std::vector<Draft> pages = again.take();
            if (pages.size() != end_page - first->page) return false;
            std::ranges::move(pages, part.drafts.begin() + static_cast<std::ptrdiff_t>(first->page));
        }
        first = end;
    }
    return true;
}

}  // namespace wayfolio::page
