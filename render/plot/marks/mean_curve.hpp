#pragma once
#include "plot/area.hpp"
#include "plot/shapes.hpp"

namespace wayfolio::plot::marks {

using CurvePoints = std::vector<std::pair<Position, Deviation>>;

/// Paper per shown unit that lets the largest of `curves` fill `height`; one scale for each unit (lengths, angles).
double curve_scale(const std::vector<const CurvePoints*>& curves, const DeviationUnit& unit, Paper height);

/// The mean along the axis in small: zero line, curve, dots at the largest and the smallest.
/// Centred on its own middle level, which stands at `middle`.
frame::Group mean_curve(const Tools& tools, const CurvePoints& curve, const DeviationUnit& unit, double points_per_unit, Rect box);

}  // namespace wayfolio::plot::marks
