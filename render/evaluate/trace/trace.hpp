#pragma once
#include "evaluate/series_evaluation.hpp"

#include <cstddef>
#include <optional>
#include <thread>

namespace wayfolio::evaluate {

/// What the trace of a series says by itself, in one walk through its samples; what is held does not grow with them.
/// Nothing where the series has no trace, or one of angle steps.
/// @param evaluated the series, whose correction for the air is applied to the samples
/// @param threads that may take part where samples are many; they change nothing of what is found
std::optional<TraceEvaluation> evaluate_trace(const document::Document& document, const document::Series& series,
                                              const SeriesEvaluation& evaluated,
                                              std::size_t threads = std::thread::hardware_concurrency());

}  // namespace wayfolio::evaluate
