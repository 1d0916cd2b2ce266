#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// How the measurement was set up: feed, dwell, measuring lines; every check with reading, limit, verdict and basis; then the
/// cosine error of a beam that stands at an angle to its axis. Only what the document tells of.
std::vector<Section> setup_sections(const Subject& subject);

/// " Two checks of the set-up are outside.", or nothing.
std::string setup_outside_words(const evaluate::Evaluation& evaluation);

}  // namespace wayfolio::report
