#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Budgets of the headline parameters, ranked; the decision rule drawn; every other parameter; the second opinion where it was asked for.
/// Nothing where the document gives neither an uncertainty nor a limit.
std::optional<Uncertainty> uncertainty(const Subject& subject);

}  // namespace wayfolio::report
