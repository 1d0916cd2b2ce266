#include "page/filling/filling_text.hpp"

#include "page/blocks/blocks.hpp"
#include "page/filling/least_height.hpp"
#include "page/opening.hpp"

#include <algorithm>
#include <optional>

namespace wayfolio::page {
namespace {

/// As many of its sections as fit below what stands on the page.
std::size_t sections_that_fit(const Composer& composer, const report::Sections& text) {
    report::Sections some = text;
    const Paper above = below_all(composer, report::Block(report::Sections{})) - composer.y;
    while (!some.sections.empty() && !composer.fits(above + height_alone(composer, some))) some.sections.pop_back();
    return some.sections.size();
}

/// Text that may go below what stands on the page: a block, or its first sections.
struct FillingText {
    Blocks::iterator at;
    std::size_t sections;
    bool whole;
    Paper height;
};

/// Of texts that fit whole those that fill most of the room together; the first of them begins here, the others will find room after it.
std::optional<std::size_t> first_of_fullest(const std::vector<Paper>& heights, Paper room) {
    std::optional<std::size_t> first;
    Paper most{};
    constexpr std::size_t most_texts = 8;
    const std::size_t texts = std::min(heights.size(), most_texts);
    for (unsigned chosen = 1; chosen < 1U << texts; ++chosen) {
        Paper sum{};
        std::optional<std::size_t> begins;
        for (std::size_t i = 0; i < texts; ++i) {
            if ((chosen >> i & 1U) == 0) continue;
            sum += heights[i];
            if (!begins) begins = i;
        }
        if (sum <= room && sum > most) most = sum, first = begins;
    }
    return first;
}

/// Of texts that fit whole the first of those that fill most of the page together, for who looks a thing up finds all of it; else the part
/// that fills most.
std::optional<FillingText> filling_text(const Composer& composer, Blocks& waiting) {
    std::vector<FillingText> whole;
    std::optional<FillingText> part;
    const report::Block any = report::Sections{};
    const Paper above = below_all(composer, any) - composer.last_ink();
    for (auto at = waiting.begin(); at != waiting.end(); ++at) {
        const auto* text = std::get_if<report::Sections>(*at);
        if (!text || text->ends_report) continue;
        report::Sections some = *text;
        some.sections.resize(sections_that_fit(composer, *text));
        if (some.sections.empty()) continue;
        const FillingText found{at, some.sections.size(), some.sections.size() == text->sections.size(), height_alone(composer, some)};
        if (found.whole) whole.push_back(found);
        else if (!part || found.height > part->height) part = found;
    }
    std::vector<Paper> heights;
    for (const FillingText& one : whole) heights.push_back(one.height + above);
    const auto first = first_of_fullest(heights, composer.last_baseline() - composer.last_ink());
    return first ? std::optional(whole[*first]) : whole.empty() ? part : std::optional(whole.front());
}

/// The first sections of a text; the others take its place, with what ends it.
const report::Block* parted(const report::Block*& block, std::size_t sections, Halves& halves) {
    const auto& text = std::get<report::Sections>(*block);
    const auto parting = text.sections.begin() + static_cast<std::ptrdiff_t>(sections);
    report::Sections first = text, rest = text;
    first.sections.assign(text.sections.begin(), parting);
    first.signatures.clear();
    first.ends_report = false;
    rest.sections.assign(parting, text.sections.end());
    rest.opening = {.label = continued_label(text.opening.label), .anchor = text.opening.anchor + "-continued", .lead = {}, .body = {}};
    block = halves.emplace_back(std::make_unique<report::Block>(std::move(rest))).get();
    return halves.emplace_back(std::make_unique<report::Block>(std::move(first))).get();
}

}  // namespace

Paper below_all(const Composer& composer, const report::Block& block) {
    constexpr double above_readings = 16;
    if (std::holds_alternative<report::Readings>(block)) return composer.last_ink() + pt(above_readings);
    return composer.on_grid(composer.last_ink() + composer.tools().layout.size(SizeRole::BlockGap));
}

const report::Block* take_text(const Composer& composer, Blocks& waiting, Halves& halves) {
    const auto chosen = filling_text(composer, waiting);
    if (!chosen || (!chosen->whole && composer.empty_share() <= most_empty)) return nullptr;
    const report::Block* const whole = *chosen->at;
    const auto& text = std::get<report::Sections>(*whole);
    if (chosen->sections == text.sections.size()) {
        waiting.erase(chosen->at);
        return whole;
    }
    return parted(*chosen->at, chosen->sections, halves);
}

const report::Block* take_from_end(const Composer& composer, Blocks& waiting, Halves& halves) {
    const auto end = std::ranges::find_if(waiting, [](const report::Block* block) {
        const auto* const text = std::get_if<report::Sections>(block);
        return text && text->ends_report && text->sections.size() > 1;
    });
    if (end == waiting.end()) return nullptr;
    report::Sections some = std::get<report::Sections>(**end);
    some.signatures.clear();
    some.ends_report = false;
    some.sections.pop_back();
    const std::size_t fit = sections_that_fit(composer, some);
    return fit == 0 ? nullptr : parted(*end, fit, halves);
}

}  // namespace wayfolio::page
