#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// Heights at the stations of a series of angle steps, in rising position; or why they cannot be summed.
/// The targets are the stations; the reading at one belongs to the step that ends there (in the file's order), so the first has
/// none. The height of the lowest station is 0; height grows by mean angle times base (rise = angle x base, exact to the small
/// angles of a guide). The base must equal the step between stations. Each height stands as the `mean` of its station; n counts
/// the readings of the step that ends there.
/// @param series with steps_base_mm set and readings in an angle unit
Evaluated<std::vector<TargetEvaluation>> heights_from_steps(const document::Series& series);

}  // namespace wayfolio::evaluate
