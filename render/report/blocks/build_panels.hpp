#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Angles, or straightness, of one axis in one state as aligned panels on one scale; at most three to a block.
/// @param views of one kind, axis and state
Panels panels(const Subject& subject, const std::vector<SeriesView>& views, const std::string& figure_number);

}  // namespace wayfolio::report
