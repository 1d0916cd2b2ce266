#pragma once
#include "plot/area.hpp"
#include "plot/label_places.hpp"
#include "plot/shapes.hpp"

/// What is measured in a figure: brackets, the targets that set them, and limits.
namespace wayfolio::plot::marks {

/// Brackets right of the plot, from inside out; the symbol stands above each. Exact levels, no rounding.
/// @param first where the innermost stands
frame::Group brackets(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Paper first);

/// Short horizontal ticks at the levels that set the parameters, labelled "8: A, E, M" once per target,
/// and dotted leaders from each level to its bracket. Labels go where `places` has room.
frame::Group setting_ticks(const Tools& tools, const report::DeviationPlot& plot, const Area& area, LabelPlaces& places);

enum class LimitLabel { Long, Short };
/// Two lines, one limit apart, or one line of words where the limit is far wider than the data.
frame::Group limit_lines(const Tools& tools, const report::DeviationPlot& plot, const Area& area, LimitLabel label, LabelPlaces& places);

}  // namespace wayfolio::plot::marks
