#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Whether a series has a polar form: positioning of a rotary axis over more than a quarter turn.
bool goes_round(const evaluate::SeriesEvaluation& series);

/// Every series that has one, in the document's order.
std::vector<PolarOpening> polar_openings(const Subject& subject);

}  // namespace wayfolio::report
