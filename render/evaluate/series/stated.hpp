#pragma once
#include "evaluate/evaluation.hpp"

namespace wayfolio::evaluate {

/// Per-target values as the document states them, in rising position, with what follows from them (mean, reversal, R).
/// Readings are not counted: n stays 0.
std::vector<TargetEvaluation> stated_targets(const document::Series& series);

/// Puts the stated values beside the recomputed ones. A stated parameter that was not recomputed is added, "stated, not
/// recomputed".
void attach_stated(SeriesEvaluation& evaluation, const document::Series& series);

/// A warning for each stated value that is off the recomputed one by more than half a unit of its last written digit.
/// @param place of the series in the document, for the pointer
std::vector<Warning> stated_disagreements(const SeriesEvaluation& evaluation, const document::Series& series, std::size_t place);

}  // namespace wayfolio::evaluate
