#include "plot/shapes.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace wayfolio::plot {
namespace {

std::vector<frame::PathStep> steps_through(std::span<const Point> points) {
    std::vector<frame::PathStep> steps;
    steps.reserve(points.size() + 1);  // one to close it: what a vector keeps for more is a fiftieth of a report's memory
    for (const Point& point : points) {
        if (steps.empty()) steps.emplace_back(frame::MoveTo{point});
        else steps.emplace_back(frame::LineTo{point});
    }
    return steps;
}

/// Where the line v = u * slope + offset crosses the polygon's edges, as u values.
std::vector<double> crossings(std::span<const Point> polygon, double slope, double offset) {
    std::vector<double> found;
    const auto side = [&](const Point& p) { return p.y.in(units::point) - slope * p.x.in(units::point) - offset; };
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Point& a = polygon[i];
        const Point& b = polygon[(i + 1) % polygon.size()];
        const double at_a = side(a), at_b = side(b);
        if ((at_a > 0) == (at_b > 0)) continue;
        const double share = at_a / (at_a - at_b);
        found.push_back((a.x + (b.x - a.x) * share).in(units::point));
    }
    std::ranges::sort(found);
    return found;
}

}  // namespace

frame::Stroke stroke(const Tools& tools, PenRole pen) {
    const layouts::Pen& chosen = tools.layout.pen(pen);
    return {.colour = chosen.colour, .width = chosen.width, .dash = chosen.dash};
}

frame::Path line(const Tools& tools, PenRole pen, Point from, Point to) {
    return {.steps = {frame::MoveTo{from}, frame::LineTo{to}}, .fill = {}, .stroke = stroke(tools, pen)};
}

frame::Path polyline(const Tools& tools, PenRole pen, std::span<const Point> points) {
    frame::Stroke chosen = stroke(tools, pen);
    chosen.join = frame::Join::Round;
    return {.steps = steps_through(points), .fill = {}, .stroke = std::move(chosen)};
}

frame::Path filled(const Tools& tools, ColourRole colour, std::span<const Point> corners) {
    frame::Path path{.steps = steps_through(corners), .fill = tools.layout.colour(colour), .stroke = {}};
    path.steps.emplace_back(frame::ClosePath{});
    return path;
}

Colour multiplied(const Colour& one, const Colour& other) {
    constexpr double white = 255;
    const auto product = [](unsigned char a, unsigned char b) { return static_cast<unsigned char>(std::lround(a * b / white)); };
    return {product(one.red, other.red), product(one.green, other.green), product(one.blue, other.blue)};
}

frame::Path rectangle(const Tools& tools, ColourRole colour, const Rect& box) {
    const std::vector<Point> corners{
        {box.left, box.top}, {box.right(), box.top}, {box.right(), box.bottom()}, {box.left, box.bottom()}};
    return filled(tools, colour, corners);
}

std::vector<frame::PathStep> circle(Point centre, Paper radius) {
    const Paper r = radius, h = radius * quarter_circle_handle;
    const auto at = [&](Paper dx, Paper dy) { return Point{centre.x + dx, centre.y + dy}; };
    const Paper none{};
    return {frame::MoveTo{at(r, none)},
            frame::CurveTo{at(r, h), at(h, r), at(none, r)},
            frame::CurveTo{at(-h, r), at(-r, h), at(-r, none)},
            frame::CurveTo{at(-r, -h), at(-h, -r), at(none, -r)},
            frame::CurveTo{at(h, -r), at(r, -h), at(r, none)},
            frame::ClosePath{}};
}

frame::Path disc(const Tools& tools, ColourRole colour, Point centre, Paper radius) {
    return {.steps = {frame::MoveTo{centre}, frame::LineTo{centre}}, .fill = {},
            .stroke = frame::Stroke{.colour = tools.layout.colour(colour), .width = radius * 2, .cap = frame::Cap::Round}};
}

frame::Path ring(const Tools& tools, PenRole pen, Point centre, Paper radius) {
    return {.steps = circle(centre, radius), .fill = tools.layout.colour(ColourRole::Paper), .stroke = stroke(tools, pen)};
}

void cross(std::vector<Item>& into, const Tools& tools, Point centre) {
    const Paper half = tools.layout.size(SizeRole::ExcludedHalf);
    into.emplace_back(line(tools, PenRole::Excluded, {centre.x - half, centre.y - half}, {centre.x + half, centre.y + half}));
    into.emplace_back(line(tools, PenRole::Excluded, {centre.x - half, centre.y + half}, {centre.x + half, centre.y - half}));
}

frame::Group in_grey(const Tools& tools, frame::Group group) {
    const Colour ink = tools.layout.colour(ColourRole::Ink), grey = tools.layout.colour(ColourRole::Grey);
    const auto change = [&](Colour& colour) {
        if (colour == ink) colour = grey;
    };
    for (Item& item : group.items) {
        if (auto* inner = std::get_if<frame::Group>(&item)) *inner = in_grey(tools, std::move(*inner));
        if (auto* words = std::get_if<frame::GlyphRun>(&item)) change(words->colour);
        if (auto* path = std::get_if<frame::Path>(&item)) {
            if (path->stroke) change(path->stroke->colour);
            if (path->fill) change(*path->fill);
        }
    }
    return group;
}

frame::Path hatch(const frame::Stroke& pen, std::span<const Point> polygon, Paper pitch, HatchSlope slope) {
    frame::Path path{.steps = {}, .fill = {}, .stroke = pen};
    if (polygon.size() < 3) return path;
    constexpr double degrees = std::numbers::pi / 180, rising = 35 * degrees, falling = 55 * degrees;
    const double angle = slope == HatchSlope::Rising ? -rising : falling;  // y runs down
    const double gradient = std::tan(angle);
    const auto offset_of = [&](const Point& p) { return p.y.in(units::point) - gradient * p.x.in(units::point); };
    const auto [least, most] = std::ranges::minmax_element(polygon, {}, offset_of);
    const double step = pitch.in(units::point) / std::cos(angle);
    // Lines stand at multiples of the step, so that bands side by side share one hatch.
    for (double offset = std::ceil(offset_of(*least) / step) * step; offset < offset_of(*most); offset += step) {
        const std::vector<double> cuts = crossings(polygon, gradient, offset);
        for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
            path.steps.emplace_back(frame::MoveTo{{pt(cuts[i]), pt(gradient * cuts[i] + offset)}});
            path.steps.emplace_back(frame::LineTo{{pt(cuts[i + 1]), pt(gradient * cuts[i + 1] + offset)}});
        }
    }
    return path;
}

}  // namespace wayfolio::plot
