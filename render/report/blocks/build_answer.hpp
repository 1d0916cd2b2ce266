#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// The first page: what was measured, a map of all quantities with their verdicts, what failed and by how much, what to do next.
Answer answer(const Subject& subject);

/// The series that speak for the machine as it is now: those of the last state compared, all where only one state was measured.
std::vector<SeriesView> answering_series(const Subject& subject);

}  // namespace wayfolio::report
