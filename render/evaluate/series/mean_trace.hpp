#pragma once
#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// The trace that a series' end-point and least-squares lines are fitted to: the bidirectional means where both directions were read,
/// otherwise the means of the one direction; for steps the heights. x in mm (rotary axes: degrees), y in µm or µrad, rising x.
struct MeanTrace {
    std::vector<double> x, y;
    std::vector<std::size_t> target;  ///< place of each point in the series' targets
    std::optional<Approach> one_way;  ///< the direction, where there is only one

    /// What straightness is the range of, and the minimum zone encloses: the lowest and the highest mean of both directions at each
    /// place that has one (of steps and of one direction: the trace itself).
    struct Zone {
        std::vector<double> x, low, high;
    } zone;
};

MeanTrace mean_trace(const SeriesEvaluation& series);

/// End point and least squares are fitted to the trace. The minimum zone is the line for which the range of all means of both
/// directions is least: ISO 230-1:2012 3.4.13 [from memory], with the range that straightness is. Needs two points.
Line reference_line(document::ReferenceLine kind, const MeanTrace& trace);

}  // namespace wayfolio::evaluate
