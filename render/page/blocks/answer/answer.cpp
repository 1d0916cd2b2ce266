#include "page/blocks/blocks.hpp"

#include "page/blocks/answer/answer_parts.hpp"
#include "page/flowing.hpp"
#include "page/margin.hpp"
#include "page/opening.hpp"
#include "page/spacing.hpp"

#include <algorithm>

namespace wayfolio::page {
namespace {

constexpr double body_below_lead = 24, between_paragraphs = 18, rows_below_body = 24, rows_below_facts = 16;
constexpr double note_below_rows = 12, words_below_last_note = 8, air_above_signatures = 18;

/// What weakens the verdicts, with the page that tells of each.
Text weakness_words(Composer& composer, const report::Answer& block) {
    Text words = Text().strong("What weakens this").plain("\u2002");
    for (const report::Weakness& weakness : block.weaknesses) {
        const int page = composer.page_of(weakness.destination);
        words.append(weakness.sentence)
            .plain((page > 0 ? " (page\u00a0" + std::to_string(page) + ")" : std::string()) +
                   (&weakness == &block.weaknesses.back() ? "." : ". "));
    }
    return words;
}

/// What weakens the verdicts, before how they were come by. composer.y is the last baseline before and after.
void place_body(Composer& composer, const report::Answer& block) {
    const auto& grid = composer.grid();
    double below = body_below_lead;
    const auto place_one = [&](const Text& words) {
        if (words.empty()) return;
        composer.y += pt(below);
        place_flowing(composer, {composer.tools(), words, {.type = TypeRole::Body}, grid.wide_right - grid.left}, grid.left,
                      frame::Role::Paragraph, [&](Group lines) { composer.add(std::move(lines)); },
                      [&] { turn_page(composer, block.opening.label); });
        below = between_paragraphs;
    };
    if (!block.weaknesses.empty()) place_one(weakness_words(composer, block));
    place_one(block.opening.body);
}

std::vector<Text> notes_of(const report::Answer& block) {
    std::vector<Text> notes = block.rows_note;
    notes.insert(notes.end(), block.shortened.begin(), block.shortened.end());
    return notes;
}

void place_rows_note(Composer& composer, const report::Answer& block) {
    const auto& grid = composer.grid();
    composer.y += pt(note_below_rows);
    for (const Text& note : notes_of(block)) {
        const FlowingText words(composer.tools(), note, {.colour = ColourRole::Grey}, grid.margin_right - grid.left);
        place_flowing(composer, words, grid.left, frame::Role::Note, [&](Group lines) { composer.add(std::move(lines)); },
                      [&] { turn_page(composer, block.opening.label); });
        composer.y += words.leading();
    }
    composer.y += pt(words_below_last_note);
}

Paper notes_height(Composer& composer, const report::Answer& block) {
    const Paper width = composer.grid().margin_right - composer.grid().left;
    Paper height = pt(note_below_rows + words_below_last_note);
    for (const Text& note : notes_of(block)) {
        const FlowingText words(composer.tools(), note, {.colour = ColourRole::Grey}, width);
        height += words.leading() * static_cast<double>(words.size());
    }
    return height;
}

/// Signature lines and the note of issue at the foot of the page. A full page leaves the signatures to the closing block, where there is
/// one.
void place_answer_foot(Composer& composer, const report::Answer& block) {
    const Paper height = signatures_height(composer, block.signatures);
    // What stands last ends two steps above where the next would begin.
    const auto is_full = [&] {
        return composer.y - composer.grid().baseline_step * 2 > composer.last_baseline() - height - pt(air_above_signatures);
    };
    const bool full = is_full();
    if (full && block.signed_at_end) {
        margin_notes(composer, "", block.issue_note, composer.margin_free() + pt(air_above_signatures));
        return;
    }
    if (full) turn_page(composer, block.opening.label);
    const Paper line_at = is_full() ? composer.y + pt(air_above_signatures) : composer.last_baseline() - height;
    place_signatures(composer, block.signatures, line_at, block.opening.label);
    // A note that is higher than the signatures begins above them.
    const Paper notes = std::max(height, margin_notes_height(composer, block.issue_note));
    margin_notes(composer, "", block.issue_note, std::max(composer.grid().first_baseline, composer.last_baseline() - notes));
}

/// Advice, with the cautions beside it where the page holds both; otherwise they begin beside what follows.
void place_advice(Composer& composer, const report::Answer& block) {
    constexpr double cautions_ascent = 10;
    const int first_page = composer.page_number();
    const Paper words_top = composer.y;
    place_words(composer, block, "What to do next", block.what_next, true);
    const bool beside = composer.page_number() == first_page;
    composer.margin_free() = std::max(composer.margin_free(), beside ? words_top - pt(cautions_ascent) : Paper{});
    margin_notes(composer, "Cautions", block.cautions, beside ? words_top : composer.grid().first_baseline);
}

}  // namespace

void place_answer(Composer& composer, const report::Answer& block) {
    constexpr int lines_of_issuer = 2;  // steps of the grid that its block reaches below the first baseline
    if (block.below_issuer) composer.y = composer.baseline(lines_of_issuer);
    const Paper top = composer.y;
    place_lead(composer, block.opening);
    place_body(composer, block);
    const Paper facts_end = place_facts(composer, block.facts, top);
    composer.y = std::max(composer.y + pt(rows_below_body), facts_end + pt(rows_below_facts));
    place_rows(composer, block);
    // What answers nothing gives way to the advice, and to signatures that stand nowhere else.
    const Paper advice = words_height(composer, block.what_next, true) + pt(air_above_signatures);
    const Paper signatures = block.signed_at_end ? Paper{} : signatures_height(composer, block.signatures);
    const bool here = composer.fits(quiet_rows_height(block) + notes_height(composer, block) + advice + signatures);
    if (here) place_quiet_rows(composer, block);
    place_rows_note(composer, block);
    place_advice(composer, block);
    place_answer_foot(composer, block);
    if (here || block.quiet.empty()) return;
    turn_page(composer, block.opening.label, 0);  // rows stand under it as under those of the first page
    place_quiet_rows(composer, block);
}

void place(Composer& composer, const report::Answer& block) {
    place_answer(composer, block.stands_alone ? fitted_to_a_page(composer, block) : block);
}

}  // namespace wayfolio::page
