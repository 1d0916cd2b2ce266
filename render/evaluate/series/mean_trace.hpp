#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// The trace that a series' reference lines are fitted to: the bidirectional means where both directions were read, otherwise the
/// means of the one direction; for steps the heights. x in mm (rotary axes: degrees), y in µm or µrad, rising x.
struct MeanTrace {
    std::vector<double> x, y;
    std::vector<std::size_t> target;  ///< place of each point in the series' targets
    std::optional<Approach> one_way;  ///< the direction, where there is only one
};

MeanTrace mean_trace(const SeriesEvaluation& series);

}  // namespace wayfolio::evaluate
