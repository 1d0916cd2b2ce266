#pragma once
#include "report/model/answer.hpp"
#include "report/words/subject.hpp"

/// The rows of the first page: every quantity of every state once.
namespace wayfolio::report {

/// Axes, rows with a limit and quiet rows. Order: axis by axis A, E, R, B, M, straightness, angles; squareness last.
void add_rows(Answer& made, const Subject& subject, const std::vector<SeriesView>& answering);

}  // namespace wayfolio::report
