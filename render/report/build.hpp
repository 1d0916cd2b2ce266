#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// The whole report: blocks in the layout's order, those that the data support.
Model build(const Subject& subject);

}  // namespace wayfolio::report
