#pragma once
#include "plot/tools.hpp"

#include <span>
#include <string_view>

/// Outlines in the layout's pens. Names of pens and colours are those of layouts/roles.hpp.
namespace wayfolio::plot {

frame::Stroke stroke(const Tools& tools, std::string_view pen);

frame::Path line(const Tools& tools, std::string_view pen, Point from, Point to);
frame::Path polyline(const Tools& tools, std::string_view pen, std::span<const Point> points);
/// A closed outline filled with a colour of the layout.
frame::Path filled(const Tools& tools, std::string_view colour, std::span<const Point> corners);
frame::Path rectangle(const Tools& tools, std::string_view colour, const Rect& box);

/// Circle as four Bézier arcs (error below 0.03 % of the radius).
std::vector<frame::PathStep> circle(Point centre, Paper radius);
/// The dot of a round pen that does not move: a few numbers in a file instead of four arcs, and there are hundreds.
frame::Path disc(const Tools& tools, std::string_view colour, Point centre, Paper radius);
/// A ring filled with the paper's colour, so that lines behind it do not show through.
frame::Path ring(const Tools& tools, std::string_view pen, Point centre, Paper radius);

enum class HatchSlope { Rising, Falling };
/// Parallel lines at ±45 degrees inside a polygon, `pitch` apart (perpendicular). Cut exactly, so no clip is needed.
frame::Path hatch(const frame::Stroke& pen, std::span<const Point> polygon, Paper pitch, HatchSlope slope);

}  // namespace wayfolio::plot
