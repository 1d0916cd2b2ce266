#include "plot/figures/figures.hpp"

#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <array>
#include <cmath>

namespace wayfolio::plot {
namespace {

using Lean = report::SquarenessDrawing::Lean;

constexpr double second_over_foot = 22;
constexpr double lean_degrees = 8;

/// Lengths along the first axis, in points: beside the corner stand the words of the lean, in the quadrant those of the angle.
struct Lengths {
    double corner_from_left, first, arm, angle_radius;
    Point reference_words;  ///< right of the corner and below it
};

Lengths lengths_for(Paper width) {
    constexpr double narrow = 300;
    if (width < pt(narrow)) return {105, 92, 60, 36, {pt(12), pt(11)}};
    return {130, 176, 104, 60, {pt(121), pt(-14.3)}};
}

/// A point at `radius` from the corner, `degrees` counter-clockwise from the first axis.
Point around(Point corner, Paper radius, double degrees) {
    const double angle = degrees * units::pi / 180;
    return {corner.x + radius * std::cos(angle), corner.y - radius * std::sin(angle)};
}

void arrow(std::vector<Item>& into, const Tools& tools, PenRole pen, Point from, Point tip, double degrees) {
    into.emplace_back(line(tools, pen, from, tip));
    constexpr double length = 6, spread = 20;
    const std::array<Point, 3> head{tip, around(tip, pt(length), degrees + 180 - spread), around(tip, pt(length), degrees + 180 + spread)};
    into.emplace_back(filled(tools, ColourRole::Ink, head));
}

void arc(std::vector<Item>& into, const Tools& tools, PenRole pen, Point corner, Paper radius, double from, double to) {
    std::vector<Point> points;
    constexpr int steps = 24;
    for (int i = 0; i <= steps; ++i) points.push_back(around(corner, radius, from + (to - from) * i / steps));
    into.emplace_back(polyline(tools, pen, points));
}

/// The square that both axes were compared with: two arms inside the quadrant.
void reference_square(std::vector<Item>& into, const Tools& tools, Point corner, const Lengths& lengths) {
    constexpr double gap = 12, width = 10;
    const double arm = lengths.arm;
    const auto at = [&](double right, double up) { return Point{corner.x + pt(right), corner.y - pt(up)}; };
    const std::array<Point, 6> outline{at(gap, gap),         at(gap + arm, gap),         at(gap + arm, gap + width),
                                       at(gap + width, gap + width), at(gap + width, gap + arm), at(gap, gap + arm)};
    into.emplace_back(filled(tools, ColourRole::Lane, outline));
    put(into, tools, "reference square", {.colour = ColourRole::Grey},
        {corner.x + lengths.reference_words.x, corner.y + lengths.reference_words.y});
}

}  // namespace

DrawnFigure square_figure(const Tools& tools, const report::SquarenessDrawing& drawing, const Rect& box) {
    const Lengths lengths = lengths_for(box.width);
    const Point corner{box.left + pt(lengths.corner_from_left), box.bottom() - pt(second_over_foot)};
    const Paper second = corner.y - box.top - pt(second_over_foot / 2);
    const double turned = drawing.lean == Lean::None ? 90 : drawing.lean == Lean::Open ? 90 + lean_degrees : 90 - lean_degrees;
    std::vector<Item> items;
    reference_square(items, tools, corner, lengths);
    items.emplace_back(line(tools, PenRole::Leader, corner, around(corner, second, 90)));
    const Point first_tip{corner.x + pt(lengths.first), corner.y}, second_tip = around(corner, second, turned);
    constexpr double name_beside_tip = 6, half_name = 3;
    arrow(items, tools, PenRole::UncertaintyBar, corner, first_tip, 0);
    arrow(items, tools, PenRole::UncertaintyBar, corner, second_tip, turned);
    put(items, tools, report::Text().strong("+" + drawing.first), {.type = TypeRole::Body},
        {first_tip.x + pt(name_beside_tip), first_tip.y + pt(half_name)});
    put(items, tools, report::Text().strong("+" + drawing.second), {.type = TypeRole::Body},
        {second_tip.x, second_tip.y - pt(name_beside_tip)}, Align::Centre);
    constexpr double lean_radius = 0.78, words_gap = 8, past_arc = 4;
    arc(items, tools, PenRole::Bracket, corner, pt(lengths.angle_radius), 0, turned);
    const Point middle = around(corner, pt(lengths.angle_radius), 45);
    put(items, tools, drawing.angle, {.type = TypeRole::Body}, {middle.x + pt(words_gap), middle.y});
    if (drawing.lean != Lean::None) arc(items, tools, PenRole::Bracket, corner, second * lean_radius, 90, turned);
    const Point beside = around(corner, second * lean_radius, drawing.lean == Lean::Open ? turned : std::min(turned, 90.0));
    const bool left_of = drawing.lean == Lean::Open;
    const double clear = drawing.lean == Lean::Closed ? words_gap + past_arc : words_gap;
    put(items, tools, drawing.value, {}, {beside.x + pt(left_of ? -words_gap : clear), beside.y + pt(half_figure)},
        left_of ? Align::Right : Align::Left);

    constexpr double above = 12;  // the name of the second axis
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(items)), .bottom = box.bottom(), .bracket_top = box.top};
    drawn.group.alternative = drawing.alternative;
    drawn.group.id = drawing.id;
    drawn.group.box = Rect{box.left, box.top - pt(above), box.width, box.height + pt(above)};
    return drawn;
}

}  // namespace wayfolio::plot
