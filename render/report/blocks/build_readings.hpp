#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Readings and evaluated values of one series, target by target.
Readings readings(const SeriesView& view);

}  // namespace wayfolio::report
