#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

inline constexpr double note_below_rule = 12, closing_below_rule = 10;  ///< pt, from the rule that closes a readings table

/// What all the readings are, and what the markers of the approaches say.
Text words_on_all_readings(const report::Readings& block);

/// Where the closing line of a table has its numbers: under the last run of either approach, and at the right edge.
struct ClosingPlaces {
    std::array<Paper, 2> readings;     ///< right ends, positive approach first
    std::size_t runs, evaluated;       ///< columns that its cells span
};

/// "Largest, smallest" as cells of the table's last row; none where they would not stand apart, or hold nothing.
std::vector<Group> closing_cells(const Composer& composer, const report::ReadingExtremes& extremes, const ClosingPlaces& places, Paper y);
/// The same in running words from the composer's baseline on; nothing where there is nothing to say. composer.y goes to the next baseline.
void place_closing_words(Composer& composer, const report::Readings& block);

/// Notes of the readings, then the words on all of them where they stand nowhere yet.
void place_beneath_readings(Composer& composer, const report::Readings& block, bool said);

}  // namespace wayfolio::page
