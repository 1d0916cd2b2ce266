#pragma once
#include "plot/area.hpp"
#include "plot/shapes.hpp"

namespace wayfolio::plot::marks {

/// Reversal B_i at each target: a stem from zero.
frame::Group reversal_stems(const Tools& tools, const report::DeviationPlot& plot, const Area& area);
/// 4 s_i of both directions at each target, side by side. Over 36 targets markers only.
frame::Group repeatability_stems(const Tools& tools, const report::DeviationPlot& plot, const Area& area);

}  // namespace wayfolio::plot::marks
