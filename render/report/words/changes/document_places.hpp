#pragma once
#include "compare/comparison.hpp"
#include "report/words/subject.hpp"

/// Places of a document and what stands there, in the words of those who never see the document's keys.
namespace wayfolio::report {

/// "EXX, as left: limit for R", "Input quantity “set-up”: half width". Of what is gone, as the old document has it.
std::string place_words(const Subject& was, const Subject& now, const compare::Change& change);

/// What stands there: "13", "guard band both sides", "not entered"; a text in full, of a long list its beginning and how many more.
std::string value_words(const Subject& side, const std::string& json);

}  // namespace wayfolio::report
