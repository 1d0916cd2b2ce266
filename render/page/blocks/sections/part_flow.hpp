#pragma once
#include "page/flowing.hpp"
#include "page/opening.hpp"

/// Private to sections: what all their parts share.
namespace wayfolio::page {

inline const Look section_body{.type = TypeRole::Body}, section_small{};

/// Where a section's parts stand, and how they turn the page.
struct PartFlow {
    Composer& composer;
    const std::string& label;
    Look words = section_body;  ///< of running text

    void turn() const { turn_page(composer, label); }
    /// Whether the page is turned for what is kept together. What is higher than a page is broken where it stands.
    [[nodiscard]] bool must_turn(Paper height) const { return !composer.fits(height) && fits_a_page(height); }
    [[nodiscard]] bool fits_a_page(Paper height) const {
        return height <= composer.grid().last_baseline - composer.grid().first_baseline - composer.grid().baseline_step * 2;
    }
    /// Behind the first of two columns comes the second one, which may be as short.
    void need(Paper height) const {
        for (int column = 0; column < 2 && must_turn(height); ++column) turn();
    }
    void place(const Text& words, const Look& look, Paper width, frame::Role role) const {
        place_flowing(composer, {composer.tools(), words, look, width}, left(), role, [&](Group lines) { composer.add(std::move(lines)); },
             [&] { turn(); });
    }
    [[nodiscard]] Paper left() const { return composer.text_left(); }
    /// Small text may use the whole width.
    [[nodiscard]] Paper text_width() const {
        return words.type == TypeRole::Small ? full_width() : composer.text_right() - left();
    }
    [[nodiscard]] Paper full_width() const {
        return (composer.in_columns() ? composer.text_right() : composer.grid().margin_right) - left();
    }
    [[nodiscard]] Paper leading() const { return composer.tools().layout.type(words.type).leading; }
    [[nodiscard]] Paper small_leading() const { return composer.tools().layout.type(TypeRole::Small).leading; }
};

/// Head and rows, on as many pages as they take.
void place_table(const PartFlow& flow, const report::PlainTable& part);
/// The head of a table with the rows that stand together.
Paper least_table_height(const PartFlow& flow, const report::PlainTable& part);

}  // namespace wayfolio::page
