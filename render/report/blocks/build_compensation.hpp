#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Every compensation table that the document asks for, refused ones with their reasons. Figure numbers are left empty.
std::vector<Compensation> compensations(const Subject& subject);

}  // namespace wayfolio::report
