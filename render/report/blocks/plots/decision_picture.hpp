#pragma once
#include "report/words/judgements.hpp"
#include "report/model/model.hpp"

namespace wayfolio::report {

/// The rule drawn for one decision: value with U, limit, guard bands and the verdict of every zone. Nothing where the decision has no value.
std::optional<DecisionPicture> decision_picture(const Judgement& judgement);

/// Every decision in numbers: margin, margin after U, probability of conformity.
Section decision_table(const Subject& subject, const std::vector<Judgement>& all);

}  // namespace wayfolio::report
