#pragma once
#include "report/model.hpp"
#include "report/subject.hpp"

namespace wayfolio::report {

/// Every positioning series of a rotary axis round the circle, in the document's order; those over a quarter turn or less are
/// left to their linear form.
std::vector<PolarOpening> polar_openings(const Subject& subject);

}  // namespace wayfolio::report
