#pragma once
#include "plot/scale.hpp"
#include "plot/shapes.hpp"
#include "report/model/record_plot.hpp"

/// Marks of a record over time.
namespace wayfolio::plot::marks {

/// One curve, broken where a value is missing. The place among its sisters chooses the pen; a fifth curve and later ones share the last.
/// A dense record keeps the extremes of each quarter point of paper, so that no peak is lost.
frame::Group record_curve(const Tools& tools, const report::RecordCurve& curve, std::size_t place, const Scale& time, const Scale& y);

/// Lanes behind the panels down to `foot`; at `top` a stroke for the direction of each run, above it the runs' numbers where all of
/// them have room, and above those the names of the sessions.
frame::Group run_lanes(const Tools& tools, const report::RecordPlot& plot, const Scale& time, Paper top, Paper foot);

/// y ticks with their numbers left of `x`.
frame::Group value_ticks(const Tools& tools, const Ticks& ticks, Paper x, const Scale& y);

/// Clock times under the panels; days where the record is longer than a few of them.
frame::Group time_axis(const Tools& tools, const report::RecordPlot& plot, const Scale& time, Paper foot);

}  // namespace wayfolio::plot::marks
