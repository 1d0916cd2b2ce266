#pragma once
#include "report/model/deviation_plot.hpp"
#include "report/words/shown.hpp"

namespace wayfolio::report {

/// The figure of one series as it is drawn: deviations of a positioning series as they are, straightness about the headline
/// reference line, angles about the mean of their readings (only differences have meaning there).
/// @param letters whether excluded readings carry the letters of the readings table
DeviationPlot deviation_plot(const document::Document& document, const document::Series& series, const evaluate::SeriesEvaluation& evaluation,
                             const Shown& shown);

/// The mean along the axis in small, as drawn in that figure: of both directions, or of the one that was measured.
std::vector<std::pair<Position, Deviation>> mean_curve_of(const DeviationPlot& plot);

/// A letter for the n-th note of a table: a, b ... z, aa ...
std::string note_letter(std::size_t n);

/// Notes on readings that took no part, in the order of the readings table (rising targets, positive first, then by run):
/// excluded and missing readings share one sequence of letters.
struct ReadingNote {
    std::size_t run, target;  ///< places in the document
    std::string letter;
    std::optional<std::string> excluded_because;  ///< empty: missing
};
std::vector<ReadingNote> reading_notes(const document::Series& series, const evaluate::SeriesEvaluation& evaluation);

}  // namespace wayfolio::report
