#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// Heights at the stations of a series of angle steps, in rising position; or why they cannot be summed.
/// Reading i belongs to the farther station: the stations are the targets where these are one more than the readings (or where the first
/// target has none); otherwise the first station lies one base before the first target. The first height is 0; height grows by mean
/// angle times base (rise = angle x base, exact to the small angles of a guide). The base must equal the step between stations.
/// Each height stands as the `mean` of its station; n counts the readings of the step that ends there.
/// @param series with steps_base_mm set and readings in an angle unit
Evaluated<std::vector<TargetEvaluation>> heights_from_steps(const results::Series& series);

}  // namespace wayfolio::evaluate
