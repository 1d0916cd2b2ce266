#include "plot/figures/figures.hpp"

#include "plot/approach_roles.hpp"
#include "plot/marks/circle.hpp"
#include "plot/marks/curves.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::plot {
namespace {

using evaluate::TargetEvaluation;
using marks::Dial;
using marks::DialPoint;

constexpr double hub = 0.34;  // of the outer radius: the lowest ring stands there, so that the curve keeps its shape
constexpr double whole_turn = 360;

double degrees_of(const TargetEvaluation& target) { return target.position.in(units::position_degree); }

/// Whether a curve goes on from the last target to the first: the gap left is no wider than the widest between targets.
bool closes(const report::DeviationPlot& plot) {
    double widest = 0;
    for (std::size_t i = 1; i < plot.targets.size(); ++i)
        widest = std::max(widest, degrees_of(plot.targets[i]) - degrees_of(plot.targets[i - 1]));
    const double left = whole_turn - (degrees_of(plot.targets.back()) - degrees_of(plot.targets.front()));
    return left > 0 && left <= widest * (1 + 1e-9);
}

/// Stretches of targets that have a value; where the circle closes, the last goes on to the first.
template <class Value>
std::vector<std::vector<DialPoint>> stretches(const report::DeviationPlot& plot, const Value& value) {
    std::vector<std::vector<DialPoint>> all(1);
    for (std::size_t i = 0; i < plot.targets.size(); ++i) {
        if (const std::optional<Deviation> found = value(i)) all.back().push_back({degrees_of(plot.targets[i]), *found});
        else if (!all.back().empty()) all.emplace_back();
    }
    const std::optional<Deviation> first = value(0);
    if (closes(plot) && first && value(plot.targets.size() - 1))
        all.back().push_back({degrees_of(plot.targets.front()) + whole_turn, *first});
    std::erase_if(all, [](const auto& stretch) { return stretch.size() < 2; });
    return all;
}

std::vector<std::vector<DialPoint>> mean_stretches(const report::DeviationPlot& plot, std::optional<report::Approach> approach) {
    return stretches(plot, [&](std::size_t i) { return plot.targets[i].mean_of(approach); });
}

void add_polar_band(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Dial& dial,
                    report::Approach approach) {
    const bool positive = approach == report::Approach::Positive;
    const auto edge = [&](double times) {
        return stretches(plot, [&, times](std::size_t i) -> std::optional<Deviation> {
            const auto& [n, mean, s, R] = plot.targets[i].one_way[approach];
            if (!mean || !s) return std::nullopt;
            return *mean + *s * times;
        });
    };
    const auto upper = edge(2), lower = edge(-2);
    const ApproachRoles roles = roles_of(approach);
    frame::Stroke pen = stroke(tools, PenRole::BandHatch);
    pen.colour = tools.layout.colour(roles.hatch);
    for (std::size_t i = 0; i < upper.size(); ++i) {
        std::vector<Point> outline = marks::dial_path(dial, upper[i]), back = marks::dial_path(dial, lower[i]);
        outline.insert(outline.end(), back.rbegin(), back.rend());
        into.emplace_back(filled(tools, roles.tint, outline));
        into.emplace_back(
            hatch(pen, outline, tools.layout.size(SizeRole::HatchPitch), positive ? HatchSlope::Rising : HatchSlope::Falling));
    }
}

void add_runs(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Dial& dial) {
    for (const report::RunCurve& run : plot.runs) {
        for (const auto& stretch : stretches(plot, [&](std::size_t i) { return run.readings[i]; })) {
            frame::Path path = polyline(tools, PenRole::Run, marks::dial_path(dial, stretch));
            path.stroke->colour = tools.layout.colour(roles_of(run.approach).run);
            into.emplace_back(std::move(path));
        }
    }
}

void add_means(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Dial& dial) {
    const auto curve = [&](std::optional<report::Approach> approach, PenRole pen) {
        for (const auto& stretch : mean_stretches(plot, approach)) into.emplace_back(polyline(tools, pen, marks::dial_path(dial, stretch)));
    };
    curve(report::Approach::Negative, PenRole::NegativeMean);
    curve(report::Approach::Positive, PenRole::PositiveMean);
    curve(std::nullopt, PenRole::Mean);
    constexpr double circumference_of_radius = 2 * units::pi;
    const Paper most = tools.layout.size(SizeRole::MarkerRadius);
    const Paper radius = marks::marker_radius(most, dial.radius.to() * circumference_of_radius / 2, plot.targets.size());
    for (const auto approach : {report::Approach::Negative, report::Approach::Positive}) {
        for (const TargetEvaluation& target : plot.targets) {
            if (const auto& mean = target.one_way[approach].mean)
                into.emplace_back(marks::marker(tools, approach, dial.at(degrees_of(target), *mean), radius));
        }
    }
}

void add_excluded(std::vector<Item>& into, const Tools& tools, const report::DeviationPlot& plot, const Dial& dial) {
    for (const report::ExcludedMark& mark : plot.excluded) {
        const double low = dial.radius.low(), high = dial.radius.high();
        const Point at =
            dial.at(mark.position.in(units::position_degree), dial.radius.map(std::clamp(mark.value.in(plot.unit), low, high)));
        cross(into, tools, at);
        put(into, tools, mark.letter, {}, {at.x + pt(letter_beside_mark), at.y + pt(letter_drop)});
    }
}

}  // namespace

DrawnFigure polar_figure(const Tools& tools, const report::DeviationPlot& plot, const Rect& box) {
    constexpr int most_rings = 5;
    constexpr double degrees_room = 20, numbers_room = 24, before_leaders = 8;
    const Extent extent = data_extent(plot);
    Extent with_zero = extent;
    with_zero.add(0);
    const Ticks ticks = enclosing_ticks(*with_zero.low, *with_zero.high, most_rings);
    const Paper outer = std::min((box.width - pt(2 * degrees_room + numbers_room)) / 2, (box.height - pt(2 * degrees_room)) / 2);
    const Point centre{box.right() - pt(degrees_room) - outer, box.top + pt(degrees_room) + outer};
    const Dial dial{.centre = centre, .radius = Scale(ticks.low(), ticks.high(), outer * hub, outer), .unit = plot.unit};
    std::vector<Item> items;
    put(items, tools, plot.quantity + " / " + std::string(plot.unit.symbol), {.colour = ColourRole::Grey}, {box.left, box.top});
    items.emplace_back(marks::rings(tools, dial, ticks, box.left + tools.layout.size(SizeRole::TickLabelRoom) - pt(before_leaders)));
    items.emplace_back(marks::degrees(tools, dial));
    add_polar_band(items, tools, plot, dial, report::Approach::Negative);
    add_polar_band(items, tools, plot, dial, report::Approach::Positive);
    add_runs(items, tools, plot, dial);
    add_means(items, tools, plot, dial);
    add_excluded(items, tools, plot, dial);

    DrawnFigure drawn{
        .group = grouped(frame::Role::Figure, std::move(items)), .bottom = centre.y + outer + pt(degrees_room), .bracket_top = box.top};
    drawn.group.alternative = plot.alternative;
    drawn.group.id = plot.series_id;
    drawn.group.box = Rect{box.left, box.top - pt(title_ascent), box.width, drawn.bottom - box.top + pt(title_ascent)};
    return drawn;
}

}  // namespace wayfolio::plot
