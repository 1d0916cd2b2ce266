#pragma once
#include "plot/scale.hpp"
#include "plot/shapes.hpp"
#include "report/model/answer.hpp"

namespace wayfolio::plot::marks {

/// Height of a curve in the unit it is drawn in: from its lowest to its highest, of stems from 0.
double height_of(const report::RowCurve& curve, const units::DeviationUnit& unit);

/// A parameter along its axis in small: a grey band with its edges, both means (the negative one dashed), the mean on its zero, or stems
/// from 0; dots where the targets stand that set it. What is no stem stands in the middle of `box`.
/// @param x from positions in `position_unit` to paper
frame::Group row_curve(const Tools& tools, const report::RowCurve& curve, const Scale& x, const units::PositionUnit& position_unit,
                       const units::DeviationUnit& unit, double points_per_unit, const Rect& box);

/// Two axes, the second upright or leaning to the side that the angle between them has.
frame::Group row_lean(const Tools& tools, report::Lean lean, const Rect& box);

/// The position axis of such curves at `foot`, with guides at its ticks up to `top`; nothing for an axis of one place.
frame::Group row_axis(const Tools& tools, const report::RowAxis& axis, Paper left, Paper right, Paper top, Paper foot);
/// The guides alone.
frame::Group row_guides(const Tools& tools, const report::RowAxis& axis, Paper left, Paper right, Paper top, Paper bottom);

}  // namespace wayfolio::plot::marks
