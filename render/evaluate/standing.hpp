#pragma once
#include "evaluate/uncertainty_evaluation.hpp"

#include <string_view>

namespace wayfolio::evaluate {

/// What a decision comes to, as pages, listings, comparisons and certificates show it. The outcome says what the rule concluded; this one
/// also says on which side of its limit the value lies. Worst first.
enum class Standing { Outside, OutsideByLess, NotAccepted, Undecided, NotEvaluated, InsideByLess, Inside, NoLimit };

/// Of an outcome and of whether the value itself keeps its limit: a rule with a guard band refuses values that do.
Standing standing_of(Outcome outcome, bool within_limit);
/// Of a decision; nullptr: no limit is set. A value on its limit keeps it, whatever doubles round.
Standing standing_of(const Decision* decision);

/// The one word for it: "Inside", "Outside", "Not accepted", "Undecided", "Inside by less than U", "Outside by less than U",
/// "Not evaluated", "no limit set".
std::string_view word(Standing standing);

}  // namespace wayfolio::evaluate
