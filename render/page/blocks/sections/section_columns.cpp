#include "page/blocks/sections/section_parts.hpp"
#include "page/opening.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <variant>

namespace wayfolio::page {
namespace {

using Sections = std::span<const report::Section>;

/// Less than this is read more easily in one piece.
constexpr double least_for_columns = 96;

bool is_text(const report::Section& section) {
    return std::ranges::none_of(section.parts, [](const auto& part) { return std::holds_alternative<report::PlainTable>(part); });
}

void place_each(Composer& composer, Sections sections, const std::string& label) {
    for (const report::Section& section : sections) place_section(composer, section, label);
}

/// How high the sections are in one column without an end.
Paper column_height(const Composer& composer, Sections sections, const std::string& label) {
    const PageNumbers none;
    Composer trial(composer.tools(), none);
    trial.new_page();
    trial.begin_endless_column();
    const Paper top = trial.y;
    place_each(trial, sections, label);
    return trial.y - top;
}

/// The pages that two columns from composer.y on take, and how far down they reach on the last one so that both end together; nothing
/// where the second would stay empty.
std::optional<ColumnPages> level_columns(const Composer& composer, Sections sections, const std::string& label) {
    const PageNumbers none;
    const auto tried = [&](const ColumnPages& planned) {
        Composer trial(composer.tools(), none);
        trial.new_page();
        trial.y = composer.y;
        trial.begin_columns(planned);
        place_each(trial, sections, label);
        return std::pair(trial.page_number(), trial.column_extent());
    };
    const Paper step = composer.grid().baseline_step, end = composer.grid().last_baseline;
    const auto [pages, extent] = tried({1, end});
    for (Paper bottom = extent.top + extent.both / 2; bottom < end; bottom += step) {
        const auto [taken, level] = tried({pages, bottom});
        if (taken != pages) continue;
        if (pages == 1 && !level.second_used) return std::nullopt;
        return ColumnPages{pages, bottom};
    }
    return ColumnPages{pages, end};
}

void place_text(Composer& composer, Sections sections, const std::string& label) {
    const Paper height = column_height(composer, sections, label);
    if (height < pt(least_for_columns)) {
        place_each(composer, sections, label);
        return;
    }
    composer.y = composer.on_grid(std::max(composer.y, composer.margin_free() + composer.grid().baseline_step));
    if (!composer.fits(least_section_height(composer, sections.front()))) turn_page(composer, label);
    const auto planned = level_columns(composer, sections, label);
    if (planned) composer.begin_columns(*planned);
    place_each(composer, sections, label);
    if (planned) composer.end_columns();
}

}  // namespace

void place_sections(Composer& composer, Sections sections, const std::string& label) {
    for (auto first = sections.begin(); first != sections.end();) {
        const auto end = std::find_if_not(first, sections.end(), is_text);
        if (first == end) {
            place_section(composer, *first++, label);
        } else {
            place_text(composer, Sections(first, end), label);
            first = end;
        }
    }
}

}  // namespace wayfolio::page
