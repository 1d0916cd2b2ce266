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
    std::vector<std::size_t> ranks;    ///< places among the targets in rising position, alongside
    std::vector<double> readings;      ///< alongside
    std::vector<double> residuals{};   ///< reading less the mean of its target and direction
    double offset = 0;                 ///< mean of the residuals
    std::optional<double> slope{};     ///< of the residuals along the axis, µm/m (or per 1000 degrees); from three readings on
};

using Runs = std::vector<RunResiduals>;

/// The runs with at least one used reading, in the document's order. Empty for series by angle steps and for stated values.
Runs run_residuals(const document::Series& series, const SeriesEvaluation& evaluated);

/// Takes the residuals, offsets and slopes from the readings again, after some were changed or taken out. Runs without readings go.
void centre(Runs& runs);

/// How many readings share a target and direction, by rank and direction.
using Sharing = std::vector<ByApproach<std::size_t>>;
Sharing sharing(const Runs& runs);

/// Places in `runs` in the order of time.
std::vector<std::size_t> in_time(const Runs& runs);
/// Places of the readings of a run in the order of travel.
std::vector<std::size_t> travelled(const RunResiduals& run);

/// Whether every run says when it started, and these times differ: `when` is then a time.
bool has_times(const document::Series& series);

}  // namespace wayfolio::evaluate
