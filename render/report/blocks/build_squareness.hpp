#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// One page part for each squareness the document asks for, in its order.
std::vector<SquarenessOpening> squareness_openings(const Subject& subject);

}  // namespace wayfolio::report
