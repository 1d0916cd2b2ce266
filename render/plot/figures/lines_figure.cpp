#include "plot/figures/figures.hpp"

#include "frame/bounds.hpp"
#include "plot/label_places.hpp"
#include "plot/shapes.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wayfolio::plot {
namespace {

using report::DrawnLine;
using report::Text;
using report::LineDrawing;
using report::MachinePlace;

constexpr std::array axis_names{"X", "Y", "Z"};

/// Where places of the machine stand on paper.
struct Isometric {
    std::size_t vertical;
    double points_per_mm = 1;
    Point zero{};

    /// A way in the machine on paper, in points for one mm of scale 1: the axis after the vertical one to the right and down, the next to
    /// the right and up.
    [[nodiscard]] std::pair<double, double> way(const MachinePlace& mm) const {
        const double right_down = mm.at((vertical + 1) % 3), right_up = mm.at((vertical + 2) % 3), up = mm.at(vertical);
        static const double cosine = std::sqrt(3.0) / 2, sine = 0.5;  // of 30 degrees
        return {(right_down + right_up) * cosine, (right_down - right_up) * sine - up};
    }
    [[nodiscard]] Point at(const MachinePlace& mm) const {
        const auto [x, y] = way(mm);
        return {zero.x + pt(x * points_per_mm), zero.y + pt(y * points_per_mm)};
    }
};

MachinePlace plus(const MachinePlace& a, const MachinePlace& b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }

MachinePlace with(MachinePlace place, std::size_t axis, double value) {
    place.at(axis) = value;
    return place;
}

/// From the zero of the two other axes to the line's first target: corners, and which axis leads to each.
std::vector<std::pair<std::size_t, MachinePlace>> way_to(const DrawnLine& line, std::size_t vertical) {
    MachinePlace at{};
    at.at(line.axis) = line.from.at(line.axis);
    std::vector<std::pair<std::size_t, MachinePlace>> corners{{line.axis, at}};
    for (const std::size_t axis : {(vertical + 1) % 3, (vertical + 2) % 3, vertical}) {
        if (axis == line.axis || line.from.at(axis) == 0) continue;
        at.at(axis) = line.from.at(axis);
        corners.emplace_back(axis, at);
    }
    return corners;
}

/// From the end of a line to the functional point there.
std::vector<MachinePlace> way_to_functional_point(const DrawnLine& line) {
    std::vector<MachinePlace> corners{line.to};
    for (std::size_t axis = 0; axis < axis_names.size(); ++axis)
        if (line.offset->at(axis) != 0) corners.push_back(with(corners.back(), axis, corners.back().at(axis) + line.offset->at(axis)));
    return corners;
}

std::vector<MachinePlace> all_places(const LineDrawing& drawing) {
    std::vector<MachinePlace> places;
    for (const DrawnLine& line : drawing.lines) {
        places.insert(places.end(), {line.from, line.to});
        if (line.travel) places.insert(places.end(), {with(line.from, line.axis, line.travel->first),
                                                      with(line.from, line.axis, line.travel->second)});
        for (const auto& [axis, corner] : way_to(line, drawing.vertical)) places.push_back(corner);
        if (line.offset) places.insert(places.end(), {plus(line.from, *line.offset), plus(line.to, *line.offset)});
    }
    if (const auto& volume = drawing.volume)
        for (const double x : {(*volume)[0].first, (*volume)[0].second})
            for (const double y : {(*volume)[1].first, (*volume)[1].second})
                for (const double z : {(*volume)[2].first, (*volume)[2].second}) places.push_back({x, y, z});
    return places;
}

/// As large as the box lets it be, in its upper part.
Isometric fitted(const LineDrawing& drawing, const Rect& box, Paper& bottom) {
    Isometric view{.vertical = drawing.vertical};
    double left = INFINITY, right = -INFINITY, top = INFINITY, low = -INFINITY;
    for (const MachinePlace& place : all_places(drawing)) {
        const auto [x, y] = view.way(place);
        left = std::min(left, x), right = std::max(right, x), top = std::min(top, y), low = std::max(low, y);
    }
    view.points_per_mm = std::min(box.width.in(units::point) / std::max(right - left, 1e-9),
                                  box.height.in(units::point) / std::max(low - top, 1e-9));
    const Paper drawn_width = pt((right - left) * view.points_per_mm);
    view.zero = {box.left + (box.width - drawn_width) / 2 - pt(left * view.points_per_mm), box.top - pt(top * view.points_per_mm)};
    bottom = box.top + pt((low - top) * view.points_per_mm);
    return view;
}

/// Draws strokes and keeps labels off them.
struct Sketch {
    const Tools& tools;
    const Isometric view;
    LabelPlaces places;
    std::vector<Item> items = {};

    void stroke(PenRole pen, const MachinePlace& from, const MachinePlace& to) {
        if (from == to) return;
        items.emplace_back(line(tools, pen, view.at(from), view.at(to)));
        places.take_line(view.at(from), view.at(to));
    }
    /// Beside a point: the first side that is free, else none; the margin says it, too.
    void label(const Text& words, Point at) {
        const Paper width = width_of(tools, words, {}), height = pt(label_height);
        constexpr double beside = 5, reach = 4;
        std::vector<Rect> wishes;
        for (const double further : {0.0, 6.0, 14.0, 24.0, 36.0}) {
            const Paper gap = pt(beside + further), step = pt(reach + further);
            wishes.insert(wishes.end(), {{at.x - gap - width, at.y - height / 2, width, height},
                                         {at.x + gap, at.y - height / 2, width, height},
                                         {at.x - width / 2, at.y - step - height, width, height},
                                         {at.x - width / 2, at.y + step, width, height},
                                         {at.x + gap, at.y - step - height, width, height},
                                         {at.x - gap - width, at.y + step, width, height},
                                         {at.x + gap, at.y + step, width, height},
                                         {at.x - gap - width, at.y - step - height, width, height}});
        }
        if (const auto place = places.place(wishes)) put(items, tools, words, {}, {place->left, place->top + pt(small_figure_top)});
    }
};

/// What a leader leads from, in bold, with what is known of it below.
struct Named {
    Text name, detail;
    Point at;
};

/// A name beside its place where there is room, else further off, a leader between.
void name_place(Sketch& sketch, const Named& named) {
    constexpr double apart = 9, gap = 1.5, first_ring = 16, last_ring = 76, ring = 10;
    const Paper width = std::max(width_of(sketch.tools, named.name, {}), width_of(sketch.tools, named.detail, {}));
    const Paper height = pt(label_height) + (named.detail.empty() ? Paper{} : pt(apart));
    static constexpr std::array<std::pair<double, double>, 8> ways{
        {{0.6, -1.0}, {-0.6, 1.0}, {1.0, -0.5}, {-1.0, 0.5}, {0.0, 1.0}, {0.0, -1.0}, {1.0, 0.6}, {-1.0, -0.6}}};
    std::vector<Rect> wishes;
    for (double out = first_ring; out <= last_ring; out += ring)
        for (const auto& [right, down] : ways) {
            const Point tip{named.at.x + pt(out * right), named.at.y + pt(out * down)};
            const Paper left = right > 0 ? tip.x : right < 0 ? tip.x - width : tip.x - width / 2;
            wishes.push_back({left, down > 0 ? tip.y : tip.y - height, width, height});
        }
    const auto box = sketch.places.place(wishes);
    if (!box) return;
    put(sketch.items, sketch.tools, named.name, {}, {box->left, box->top + pt(small_figure_top)});
    if (!named.detail.empty()) put(sketch.items, sketch.tools, named.detail, {}, {box->left, box->top + pt(small_figure_top + apart)});
    const bool below = box->top > named.at.y;
    const Point end{std::clamp(named.at.x, box->left, box->right()), below ? box->top - pt(gap) : box->bottom() + pt(gap)};
    sketch.items.emplace_back(line(sketch.tools, PenRole::QuietAxis, named.at, end));
    sketch.places.take_line(named.at, end);
}

void draw_volume(Sketch& sketch, const std::array<std::pair<double, double>, 3>& volume) {
    const auto corner = [&](unsigned which) {
        MachinePlace place{};
        for (std::size_t axis = 0; axis < place.size(); ++axis)
            place.at(axis) = (which >> axis & 1U) != 0 ? volume.at(axis).second : volume.at(axis).first;
        return place;
    };
    for (unsigned from = 0; from < 8; ++from)
        for (unsigned axis = 0; axis < 3; ++axis)
            if ((from >> axis & 1U) == 0) sketch.stroke(PenRole::Volume, corner(from), corner(from | 1U << axis));
}

void draw_line(Sketch& sketch, const DrawnLine& line) {
    const auto along = [&](double at) { return with(line.from, line.axis, at); };
    const double first = std::min(line.from.at(line.axis), line.to.at(line.axis));
    const double last = std::max(line.from.at(line.axis), line.to.at(line.axis));
    if (line.travel && line.travel->first < first) sketch.stroke(PenRole::UnusedTravel, along(line.travel->first), along(first));
    if (line.travel && line.travel->second > last) sketch.stroke(PenRole::UnusedTravel, along(last), along(line.travel->second));
    const auto corners = way_to(line, sketch.view.vertical);
    for (std::size_t i = 1; i < corners.size(); ++i) sketch.stroke(PenRole::QuietAxis, corners[i - 1].second, corners[i].second);
    if (line.offset && *line.offset != MachinePlace{}) {
        sketch.stroke(PenRole::Mean, plus(line.from, *line.offset), plus(line.to, *line.offset));
        const auto way = way_to_functional_point(line);
        for (std::size_t i = 1; i < way.size(); ++i) sketch.stroke(PenRole::Curve, way[i - 1], way[i]);
        cross(sketch.items, sketch.tools, sketch.view.at(way.back()));
    }
    sketch.stroke(PenRole::MeasuredLine, line.from, line.to);
}

void label_line(Sketch& sketch, const DrawnLine& line) {
    const Point from = sketch.view.at(line.from), to = sketch.view.at(line.to);
    sketch.label(line.ends[0], from);
    sketch.label(line.ends[1], to);
    const auto corners = way_to(line, sketch.view.vertical);
    for (std::size_t i = 1; i < corners.size(); ++i) {
        const Point a = sketch.view.at(corners[i - 1].second), b = sketch.view.at(corners[i].second);
        sketch.label(line.beside.at(corners[i].first), {(a.x + b.x) / 2, (a.y + b.y) / 2});
    }
}

/// A third along each line its name; where one is off it, the functional point; the volume at its corner.
void name_all(Sketch& sketch, const LineDrawing& drawing) {
    constexpr double along = 0.4;
    for (const DrawnLine& line : drawing.lines) {
        const Point from = sketch.view.at(line.from), to = sketch.view.at(line.to);
        sketch.places.take_line(from, to);
        name_place(sketch, {line.name, {}, {from.x + (to.x - from.x) * along, from.y + (to.y - from.y) * along}});
    }
    for (const DrawnLine& line : drawing.lines)
        if (!line.functional_point.empty())
            name_place(sketch, {Text().strong("Functional point"), line.functional_point, sketch.view.at(plus(line.to, *line.offset))});
    if (!drawing.volume) return;
    const auto& volume = *drawing.volume;
    name_place(sketch, {Text().strong("Travel of all axes"), drawing.volume_size,
                        sketch.view.at({volume[0].second, volume[1].first, volume[2].second})});
}

/// Which way the axes point, at the left of the figure.
void draw_directions(Sketch& sketch, Point at) {
    constexpr double length = 20, beyond = 5;
    Isometric small{.vertical = sketch.view.vertical, .points_per_mm = 1, .zero = at};
    for (std::size_t axis = 0; axis < axis_names.size(); ++axis) {
        const Point tip = small.at(with({}, axis, length)), name = small.at(with({}, axis, length + beyond));
        sketch.items.emplace_back(line(sketch.tools, PenRole::Axis, at, tip));
        put(sketch.items, sketch.tools, axis_names.at(axis), {}, {name.x, name.y + pt(half_figure)}, Align::Centre);
    }
}

}  // namespace

DrawnFigure lines_figure(const Tools& tools, const report::LineDrawing& drawing, const Rect& box) {
    constexpr double directions_width = 62, directions_reach = 27, words_room = 44, above = 12;
    const Rect plot{box.left + pt(directions_width), box.top + pt(above), box.width - pt(directions_width + words_room),
                    box.height - pt(above * 2)};
    Paper bottom{};
    const Isometric view = fitted(drawing, plot, bottom);
    bottom = std::max(bottom + pt(above), box.top + pt(directions_reach * 2));
    const Paper labels_left = plot.left - pt(words_room / 2);
    Sketch sketch{.tools = tools, .view = view, .places = LabelPlaces({labels_left, box.top, box.right() - labels_left, bottom - box.top})};
    if (drawing.volume) draw_volume(sketch, *drawing.volume);
    for (const DrawnLine& line : drawing.lines) draw_line(sketch, line);
    for (const DrawnLine& line : drawing.lines) label_line(sketch, line);
    name_all(sketch, drawing);
    draw_directions(sketch, {box.left + pt(directions_reach / 2), box.top + pt(directions_reach)});
    DrawnFigure drawn{.group = grouped(frame::Role::Figure, std::move(sketch.items)), .bottom = bottom, .bracket_top = box.top};
    drawn.group.alternative = drawing.alternative;
    drawn.group.id = "measurement-lines";
    drawn.group.box = Rect{box.left, box.top, box.width, bottom - box.top};
    return drawn;
}

}  // namespace wayfolio::plot
