#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// The opening of one positioning series: the sentence, the figure with its strips, the parameter table.
PositioningOpening positioning_opening(const Subject& subject, const SeriesView& view, const std::string& figure_number);

}  // namespace wayfolio::report
