#pragma once
#include "plot/area.hpp"
#include "plot/shapes.hpp"

/// Axes are marks like any other.
namespace wayfolio::plot::marks {

enum class Labels { Numbers, None };

/// y ticks with numbers left of the plot; no axis line.
frame::Group y_axis(const Tools& tools, const Area& area, const Ticks& ticks, Labels labels);
/// x axis line at the plot's foot with ticks; with numbers and the title "X / m" at `title_x` where Labels::Numbers.
frame::Group x_axis(const Tools& tools, const Area& area, const Extent& positions, const report::Text& title, Paper title_x, Labels labels);
/// The line of zero deviation, where the scale shows it.
frame::Group zero_line(const Tools& tools, const Area& area);

/// Round position ticks; for a rotary axis 30, 45 or 90 degrees apart where they suit.
Ticks position_ticks(const Extent& positions, const units::PositionUnit& unit, Paper width);

/// Width that the numbers of a y axis need, ticks included.
Paper y_label_room(const Tools& tools, const Ticks& ticks);
/// Width that the title of an x axis needs left of the plot, so that a number under the plot's left end still fits.
Paper x_title_room(const Tools& tools, const report::Text& title, const Extent& positions);

}  // namespace wayfolio::plot::marks
