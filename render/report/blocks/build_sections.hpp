#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Conditions of the standard, set-up, environment as numbers, warnings.
Sections conditions(const Subject& subject);
/// Job, machine, instruments.
Sections facts(const Subject& subject);
/// Method, decision rule, remarks, cautions, what the document lacks, sign-off, end mark.
Sections closing(const Subject& subject);

}  // namespace wayfolio::report
