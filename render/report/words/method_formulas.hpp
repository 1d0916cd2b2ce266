#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// What took part and what did not: signs, readings set aside, missing ones, stated ones, what was agreed.
Section readings_method(const Subject& subject);
/// How each number was made, in words that an auditor can repeat with a spreadsheet; only what this report holds.
Section formulas(const Subject& subject);
/// Every source that a number or a rule of this report rests on, with its edition, and whether its text was read or remembered.
Section sources(const Subject& subject);
/// Program, document and layout, by version and by hash.
Section versions(const Subject& subject);

}  // namespace wayfolio::report
