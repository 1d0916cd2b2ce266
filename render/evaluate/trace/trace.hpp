#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// What the trace of a series says by itself, in one walk through its samples; what is held does not grow with them.
/// Nothing where the series has no trace, or one of angle steps.
/// @param evaluated the series, whose correction for the air is applied to the samples
std::optional<TraceEvaluation> evaluate_trace(const document::Document& document, const document::Series& series,
                                              const SeriesEvaluation& evaluated);

}  // namespace wayfolio::evaluate
