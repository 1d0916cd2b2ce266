#include "page/blocks/readings_end.hpp"

#include "page/flowing.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

constexpr const char* closing_head = "Largest, smallest";

void place_words(Composer& composer, const report::Readings& block, const Text& words, frame::Role role) {
    const Paper left = composer.grid().left, width = composer.grid().margin_right - left;
    place_flowing(composer, {composer.tools(), words, {}, width}, left, role, [&](Group lines) { composer.add(std::move(lines)); },
                  [&] { turn_page(composer, block.opening.label); });
}

bool says_nothing(const report::ReadingExtremes& extremes) {
    return extremes.measured.empty() && std::ranges::all_of(extremes.readings, &Text::empty);
}

Group spanning(Group cell, std::size_t columns) {
    cell.column_span = static_cast<int>(columns);
    return cell;
}

}  // namespace

/// What all the readings are, and what the markers say.
Text words_on_all_readings(const report::Readings& block) {
    Text all = block.opening.lead;
    all.plain(" ").append(block.opening.body);
    all.plain(" \u25cf\u00a0positive, \u25cb\u00a0negative.");
    if (block.extremes_are_strong) all.plain(" Bold: extremes.");
    return all;
}

std::vector<Group> closing_cells(const Composer& composer, const report::ReadingExtremes& extremes, const ClosingPlaces& places, Paper y) {
    if (says_nothing(extremes)) return {};
    const Tools& tools = composer.tools();
    std::vector<Group> cells;
    Paper taken = composer.grid().left;
    Group head = text_line(tools, Text(closing_head), {.colour = ColourRole::Grey}, {taken, y}, Align::Left, frame::Role::HeadCell);
    head.scope = frame::Scope::Row;
    cells.push_back(spanning(std::move(head), 2));
    taken += plot::width_of(tools, Text(closing_head), {});
    const auto add = [&](const Text& words, Paper right, std::size_t columns) {
        const bool apart = words.empty() || right - plot::width_of(tools, words, {}) >= taken + pt(words_gap);
        cells.push_back(spanning(text_line(tools, words, {}, {right, y}, Align::Right, frame::Role::DataCell), columns));
        if (!words.empty()) taken = right;
        return apart;
    };
    for (std::size_t i = 0; i < places.readings.size(); ++i)
        if (!add(extremes.readings.at(i), places.readings.at(i), places.runs)) return {};
    if (!add(extremes.measured, composer.grid().margin_right, places.evaluated)) return {};
    return cells;
}

void place_closing_words(Composer& composer, const report::Readings& block) {
    const report::ReadingExtremes& extremes = block.extremes;
    if (says_nothing(extremes)) return;
    Text words = Text().quiet(closing_head);
    static const std::array<const char*, 2> markers{"\u25cf\u00a0", "\u25cb\u00a0"};
    for (std::size_t i = 0; i < markers.size(); ++i)
        if (!extremes.readings.at(i).empty()) words.plain(std::string("\u2002") + markers.at(i)).append(extremes.readings.at(i));
    if (!extremes.measured.empty()) words.plain("\u2002").append(extremes.measured);
    place_words(composer, block, words, frame::Role::Paragraph);
    composer.y += pt(note_below_rule);
}

void place_beneath_readings(Composer& composer, const report::Readings& block, bool said) {
    const Paper leading = composer.tools().layout.type(TypeRole::Small).leading;
    Text notes;
    for (const report::ReadingTarget& target : block.targets)
        for (const Text& note : target.notes) notes.plain(notes.empty() ? "" : "  ").append(note);
    if (!notes.empty()) place_words(composer, block, notes, frame::Role::Note);
    if (said && notes.empty()) composer.y -= pt(note_below_rule);
    if (said) return;
    if (!notes.empty()) composer.y += leading;
    place_words(composer, block, words_on_all_readings(block), frame::Role::Paragraph);
}

}  // namespace wayfolio::page
