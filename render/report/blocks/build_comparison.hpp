#pragma once
#include "compare/comparison.hpp"
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Two results on pages: what changed, and the means of every quantity that moved, old and new, on one scale.
/// @param was, now  with the same layout; `changes` was made from these two
Model build_comparison(const Subject& was, const Subject& now, const compare::Comparison& changes);

}  // namespace wayfolio::report
