#pragma once

/// Distances of text on a page that several blocks share, in points, from baseline to baseline if nothing else is said. They follow from
/// the sizes of type (9 and 7.5 pt) and from each other; what a house would change to its taste is in the layouts.
namespace wayfolio::page {

inline constexpr double body_ascent = 8, small_ascent = 7;  ///< how far letters reach above their baseline
inline constexpr double heading_below = 16;                 ///< a heading to the words under it
inline constexpr double section_below = 8;                  ///< the least below a section before the grid's next baseline

// Tables.
inline constexpr double rule_below_row = 6;  ///< a rule under a row or a head
inline constexpr double row_below_rule = 13; ///< the next row, or a note, under a rule
inline constexpr double head_room = rule_below_row + row_below_rule;  ///< a head to its first row
inline constexpr double past_decimal = 12;   ///< a head ends where a figure with two decimals ends

// Beside and around figures.
inline constexpr double symbol_room = 19;    ///< a verdict's symbol with its gap: the word stands behind it
inline constexpr double beside_top = 4;      ///< first baseline in the margin, below the top of the figure that it speaks about
inline constexpr double words_gap = 8;       ///< words to words, or to a link's edge, on one line
inline constexpr double figure_below = 26;   ///< the lower end of a figure to the words under it
inline constexpr double title_above = 12;    ///< a figure's top below the text above it: its title stands between

}  // namespace wayfolio::page
