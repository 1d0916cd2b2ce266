#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// How each number was made, in words that an auditor can repeat with a spreadsheet; what is from memory of a standard says so.
std::vector<Section> method_sections(const Subject& subject);
/// What the numbers rest on: sources with their editions, and the versions of program, document and layout.
std::vector<Section> basis_sections(const Subject& subject);
/// The rule behind every verdict, and the defaults that were used.
Section decision_section(const Subject& subject);
/// Lowest and highest of each recorded quantity.
PlainTable environment_table(const Subject& subject);

}  // namespace wayfolio::report
