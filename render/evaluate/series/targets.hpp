#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// Per-target statistics of a series' runs, in rising order of position; readings are actual minus target.
/// Only used readings count (neither missing nor excluded). Symbols of ISO 230-2 clause 3 [from memory]:
/// means xb_i, bidirectional mean (both directions only), s_i with n - 1 (from two readings on), B_i, R_i.
std::vector<TargetEvaluation> evaluate_targets(const document::Series& series);

/// Fills in what follows from the means and standard deviations already there: mean and reversal, R of each direction and of both.
void derive_target(TargetEvaluation& target);

/// The unit that deviations of one dimension are held and computed in: µm or µrad.
DeviationUnit base_unit(units::Dimension dimension);
double in_base_unit(const Deviation& value);

/// The unit that positions of one dimension are computed in: mm or degrees.
const PositionUnit& natural_unit(units::Dimension dimension);

}  // namespace wayfolio::evaluate
