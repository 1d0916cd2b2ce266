#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// What the angles do at the tool point: for each axis and state the effect as curves with measured and moved results side by
/// side, or the reasons why it is not evaluated. An additional result: measured values and verdicts stay as they are.
std::vector<Block> tool_points(const Subject& subject);

}  // namespace wayfolio::report
