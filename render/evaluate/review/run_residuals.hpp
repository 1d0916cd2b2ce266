#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// One run of a series, in base units (µm or µrad), targets in rising order of position.
struct RunResiduals {
    std::size_t run;  ///< place in the document
    Approach approach;
    double when;                       ///< minutes from the first run; without times the place of the run among all of the series
    std::vector<double> places;        ///< mm or degrees, of the used readings
    std::vector<std::size_t> targets;  ///< places in the document's targets, alongside
    std::vector<double> readings;      ///< alongside
    std::vector<double> residuals;     ///< reading less the mean of its target and direction
    double offset;                     ///< mean of the residuals
    std::optional<double> slope;       ///< of the residuals along the axis, µm/m (or per 1000 degrees); from three readings on
};

/// The runs with at least one used reading, in the document's order. Empty for series by angle steps and for stated values.
std::vector<RunResiduals> run_residuals(const document::Series& series, const SeriesEvaluation& evaluated);

/// Whether every run says when it started, and these times differ: `when` is then a time.
bool has_times(const document::Series& series);

}  // namespace wayfolio::evaluate
