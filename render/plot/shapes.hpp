#pragma once
#include "plot/tools.hpp"

#include <span>

/// Outlines in the layout's pens and colours.
namespace wayfolio::plot {

frame::Stroke stroke(const Tools& tools, PenRole pen);

frame::Path line(const Tools& tools, PenRole pen, Point from, Point to);
frame::Path polyline(const Tools& tools, PenRole pen, std::span<const Point> points);
/// A closed outline filled with a colour of the layout.
frame::Path filled(const Tools& tools, ColourRole colour, std::span<const Point> corners);
/// The colour of two transparent inks on each other: the product of both, channel by channel.
Colour multiplied(const Colour& one, const Colour& other);
frame::Path rectangle(const Tools& tools, ColourRole colour, const Rect& box);

/// 4/3 (sqrt 2 - 1) of the radius: how far the control points of a quarter circle as one cubic stand from its ends.
inline constexpr double quarter_circle_handle = 0.5522847498;
/// Circle as four Bézier arcs (error below 0.03 % of the radius).
std::vector<frame::PathStep> circle(Point centre, Paper radius);
/// The dot of a round pen that does not move: a few numbers in a file instead of four arcs, and there are hundreds.
frame::Path disc(const Tools& tools, ColourRole colour, Point centre, Paper radius);
/// A ring filled with the paper's colour, so that lines behind it do not show through.
frame::Path ring(const Tools& tools, PenRole pen, Point centre, Paper radius);

/// Two strokes across each other about `centre`, as wide and high as the layout marks an excluded reading.
void cross(std::vector<Item>& into, const Tools& tools, Point centre);

/// The same with grey for ink, in lines, areas and words: of a value that answers nothing.
frame::Group in_grey(const Tools& tools, frame::Group group);

enum class HatchSlope { Rising, Falling };
/// Parallel lines inside a polygon, `pitch` apart (perpendicular): rising by 35 degrees or falling by 55, so that they cross at right
/// angles and neither runs along a curve of the other. Cut exactly, so no clip is needed.
frame::Path hatch(const frame::Stroke& pen, std::span<const Point> polygon, Paper pitch, HatchSlope slope);

}  // namespace wayfolio::plot
