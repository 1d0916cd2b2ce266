#pragma once
#include "plot/figures.hpp"
#include "report/model/model.hpp"

namespace wayfolio::plot {

/// A decision rule on the scale of one limit: value with U above, the zones of the verdicts below, one limit line through both.
DrawnFigure decision_figure(const Tools& tools, const report::DecisionPicture& picture, Paper left, Paper right, Paper top);

/// Height of a decision figure.
Paper decision_height();

}  // namespace wayfolio::plot
