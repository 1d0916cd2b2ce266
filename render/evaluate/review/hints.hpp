#pragma once
#include "evaluate/review_evaluation.hpp"

/// Hints about the readings of a series. They never change a result; each names its statistic and its level.
namespace wayfolio::evaluate {

/// One entry per series in the document's order; none when the document switches hints off.
/// @param processors how many it may work on at a time
std::vector<SeriesHints> evaluate_hints(const document::Document& document, const std::vector<SeriesEvaluation>& series,
                                        std::size_t processors = 1);

/// The tests of evaluate_hints() that look at the evaluated means, not yet held against a level.
Evaluated<PeriodicHint> periodic_hint(const SeriesEvaluation& series);
Evaluated<ClosureHint> closure_hint(const SeriesEvaluation& series);

/// Standard deviation of a reading about its target's mean, pooled over targets and directions, with its degrees of freedom.
struct PooledSpread {
    double s, nu;
};
std::optional<PooledSpread> pooled_spread(const SeriesEvaluation& series);

}  // namespace wayfolio::evaluate
