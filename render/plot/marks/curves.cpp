#include "plot/marks/curves.hpp"

#include "plot/fine_line.hpp"

#include "plot/approach_roles.hpp"
#include "plot/spacing.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace wayfolio::plot::marks {
namespace {

using evaluate::TargetEvaluation;

bool positive(Approach approach) { return approach == Approach::Positive; }

bool keeps_marker(const report::DeviationPlot& plot, std::size_t target) {
    constexpr std::size_t too_many = 120;
    if (plot.targets.size() <= too_many) return true;
    return std::ranges::any_of(plot.ticks, [&](const auto& tick) { return tick.target == target; });
}

/// Edges of both bands at one place, on paper: upper and lower of the positive one, then of the negative one.
using BothEdges = std::array<Point, 4>;

std::optional<BothEdges> both_edges(const TargetEvaluation& target, const Area& area) {
    const auto &up = target.one_way.positive, &down = target.one_way.negative;
    if (!up.mean || !up.s || !down.mean || !down.s) return std::nullopt;
    const auto edge = [&](const evaluate::OneWay& way, double twice) { return area.at(target.position, *way.mean + *way.s * twice); };
    return BothEdges{edge(up, 2), edge(up, -2), edge(down, 2), edge(down, -2)};
}

/// Shares of the way from one target to the next at which any two edges cross, with both ends.
std::vector<double> crossing_shares(const BothEdges& from, const BothEdges& to) {
    std::vector<double> shares{0, 1};
    for (std::size_t i = 0; i < from.size(); ++i)
        for (std::size_t k = i + 1; k < from.size(); ++k) {
            const double before = (from[i].y - from[k].y).in(units::point), after = (to[i].y - to[k].y).in(units::point);
            if (before * after < 0) shares.push_back(before / (before - after));
        }
    std::ranges::sort(shares);
    return shares;
}

/// Collects what both bands cover, from left to right.
struct Overlap {
    std::vector<std::vector<Point>> outlines;
    std::vector<Point> upper, lower;

    void add(const BothEdges& from, const BothEdges& to, double share) {
        const auto between = [&](std::size_t i) {
            return Point{from[i].x + (to[i].x - from[i].x) * share, from[i].y + (to[i].y - from[i].y) * share};
        };
        const Point a = between(0), b = between(1), c = between(2), d = between(3);
        upper.push_back({a.x, std::max(a.y, c.y)});
        lower.push_back({a.x, std::min(b.y, d.y)});
        constexpr Paper nothing = pt(-1e-6);
        if (lower.back().y - upper.back().y >= nothing) return;
        upper.pop_back();
        lower.pop_back();
        close();
    }
    void close() {
        upper.insert(upper.end(), lower.rbegin(), lower.rend());
        if (upper.size() > 3) outlines.push_back(upper);
        upper.clear();
        lower.clear();
    }
};

std::vector<std::vector<Point>> overlap_outlines(const report::DeviationPlot& plot, const Area& area) {
    Overlap overlap;
    std::optional<BothEdges> last;
    for (const TargetEvaluation& target : plot.targets) {
        const auto edges = both_edges(target, area);
        if (!edges) overlap.close();
        else if (last)
            for (const double share : crossing_shares(*last, *edges)) overlap.add(*last, *edges, share);
        last = edges;
    }
    overlap.close();
    return overlap.outlines;
}

}  // namespace

std::vector<std::vector<Point>> band_outlines(const report::DeviationPlot& plot, const Area& area, Approach approach) {
    std::vector<std::vector<Point>> outlines;
    std::vector<Point> upper, lower;
    const auto close = [&] {
        upper.insert(upper.end(), lower.rbegin(), lower.rend());
        if (upper.size() > 2) outlines.push_back(upper);
        upper.clear();
        lower.clear();
    };
    for (const TargetEvaluation& target : plot.targets) {
        const auto& [n, mean, s, R] = target.one_way[approach];
        if (!mean || !s) {
            close();
            continue;
        }
        upper.push_back(area.at(target.position, *mean + *s * 2.0));
        lower.push_back(area.at(target.position, *mean - *s * 2.0));
    }
    close();
    return outlines;
}

std::vector<std::vector<Point>> stretches(const std::vector<TargetEvaluation>& targets, const Area& area,
                                          std::optional<Approach> approach) {
    std::vector<std::vector<Point>> all(1);
    for (const TargetEvaluation& target : targets) {
        if (const auto& mean = target.mean_of(approach)) all.back().push_back(area.at(target.position, *mean));
        else if (!all.back().empty()) all.emplace_back();
    }
    std::erase_if(all, [](const auto& stretch) { return stretch.empty(); });
    return all;
}

frame::Group mean_line(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach) {
    frame::Group group{.id = positive(approach) ? "mean-positive" : "mean-negative"};
    for (const auto& stretch : stretches(plot.targets, area, approach)) {
        group.items.emplace_back(polyline(tools, roles_of(approach).mean, stretch));
    }
    return group;
}

frame::Group pale_means(const Tools& tools, const report::PaleMeans& means, const Area& area) {
    frame::Group group{.id = "pale-means"};
    const auto draw = [&](std::optional<Approach> approach, PenRole pen) {
        for (const auto& stretch : stretches(means.targets, area, approach)) group.items.emplace_back(polyline(tools, pen, stretch));
    };
    draw(Approach::Negative, PenRole::PaleNegativeMean);
    draw(Approach::Positive, PenRole::PalePositiveMean);
    // Angle steps have a mean only; where there are directions, a third pale line would be one too many.
    if (group.items.empty()) draw(std::nullopt, PenRole::PalePositiveMean);
    return group;
}

frame::Group bidirectional_line(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Paper radius) {
    frame::Group group{.id = "mean-both"};
    const bool alone =
        std::ranges::none_of(plot.targets, [](const auto& target) { return target.one_way.positive.mean || target.one_way.negative.mean; });
    for (const auto& stretch : stretches(plot.targets, area, std::nullopt)) {
        group.items.emplace_back(polyline(tools, alone ? PenRole::Curve : PenRole::Mean, stretch));
        if (!alone) continue;
        for (const Point& at : stretch) group.items.emplace_back(disc(tools, ColourRole::Ink, at, radius));
    }
    return group;
}

frame::Group band(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach) {
    frame::Group group{.id = positive(approach) ? "band-positive" : "band-negative"};
    const ColourRole tint = roles_of(approach).tint;
    for (const auto& outline : band_outlines(plot, area, approach)) group.items.emplace_back(filled(tools, tint, outline));
    return group;
}

frame::Group band_overlap(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    frame::Group group{.id = "band-overlap"};
    const Colour both = multiplied(tools.layout.colour(ColourRole::PositiveTint), tools.layout.colour(ColourRole::NegativeTint));
    for (const auto& outline : overlap_outlines(plot, area)) {
        group.items.emplace_back(filled(tools, ColourRole::PositiveTint, outline));
        std::get<frame::Path>(group.items.back()).fill = both;
    }
    return group;
}

frame::Group band_hatch(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach) {
    frame::Group group{.id = positive(approach) ? "hatch-positive" : "hatch-negative"};
    frame::Stroke pen = stroke(tools, PenRole::BandHatch);
    pen.colour = tools.layout.colour(roles_of(approach).hatch);
    for (const auto& outline : band_outlines(plot, area, approach))
        group.items.emplace_back(
            hatch(pen, outline, tools.layout.size(SizeRole::HatchPitch), positive(approach) ? HatchSlope::Rising : HatchSlope::Falling));
    return group;
}

frame::Group band_edges(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach) {
    frame::Group group{.id = positive(approach) ? "edges-positive" : "edges-negative"};
    for (const auto& outline : band_outlines(plot, area, approach)) {
        const auto half = outline.begin() + static_cast<std::ptrdiff_t>(outline.size() / 2);
        for (const std::vector<Point>& edge : {std::vector<Point>(outline.begin(), half), std::vector<Point>(half, outline.end())})
            group.items.emplace_back(polyline(tools, roles_of(approach).edge, edge));
    }
    return group;
}

frame::Group runs(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    frame::Group group{.id = "runs"};
    constexpr std::size_t many_runs = 20;  // ten each way; more are drawn in the tint's hatch colour
    for (const report::RunCurve& run : plot.runs) {
        const ApproachRoles roles = roles_of(run.approach);
        std::vector<Point> stretch;
        const auto close = [&] {
            if (stretch.size() > 1) {
                frame::Path path = polyline(tools, PenRole::Run, stretch);
                path.stroke->colour = tools.layout.colour(plot.runs.size() > many_runs ? roles.hatch : roles.run);
                group.items.emplace_back(std::move(path));
            }
            stretch.clear();
        };
        for (std::size_t i = 0; i < run.readings.size(); ++i) {
            if (run.readings[i]) stretch.push_back(area.at(plot.targets[i].position, *run.readings[i]));
            else close();
        }
        close();
    }
    return group;
}

frame::Group trace(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    frame::Group group{.id = "trace"};
    std::vector<Point> points;
    points.reserve(plot.trace.size());
    for (const auto& sample : plot.trace) points.push_back(area.at(sample.position, sample.value));
    if (points.size() > 1) group.items.emplace_back(polyline(tools, PenRole::Trace, fine_line(points)));
    return group;
}

Paper marker_radius(Paper most, Paper width, std::size_t targets) {
    if (targets < 2) return most;
    constexpr double of_spacing = 0.3;
    return std::min(most, width / static_cast<double>(targets - 1) * of_spacing);
}

frame::Group marker(const Tools& tools, Approach approach, Point centre, Paper radius) {
    if (positive(approach)) return {.items = {disc(tools, ColourRole::Positive, centre, radius)}};
    // An open marker is a disc of paper on a disc: a twentieth of the numbers that the arcs of a ring take.
    const layouts::Pen& pen = tools.layout.pen(PenRole::OpenMarker);
    frame::Path edge = disc(tools, ColourRole::Paper, centre, radius);
    edge.stroke->colour = pen.colour;
    return {.items = {std::move(edge), disc(tools, ColourRole::Paper, centre, radius - pen.width)}};
}

frame::Group markers(const Tools& tools, const report::DeviationPlot& plot, const Area& area, Approach approach, Paper radius) {
    frame::Group group{.id = positive(approach) ? "markers-positive" : "markers-negative"};
    for (std::size_t i = 0; i < plot.targets.size(); ++i) {
        const auto& mean = plot.targets[i].one_way[approach].mean;
        if (mean && keeps_marker(plot, i))
            group.items.emplace_back(marker(tools, approach, area.at(plot.targets[i].position, *mean), radius));
    }
    return group;
}

std::vector<ExcludedPlace> excluded_places(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    const Paper half = tools.layout.size(SizeRole::ExcludedHalf), beside = pt(letter_beside_mark);
    std::vector<ExcludedPlace> places;
    for (const report::ExcludedMark& mark : plot.excluded) {
        Point centre = area.at(mark.position, mark.value);
        const bool off = centre.y < area.top() || centre.y > area.bottom();
        centre.y = std::clamp(centre.y, area.top() + half, area.bottom() - half);
        std::string words = mark.letter;
        if (off) words += " " + units::number(mark.value.in(plot.unit), plot.reading_decimals, {tools.layout.decimal_mark});
        const Paper width = width_of(tools, words, {});
        const bool turned = centre.x + beside + width > area.right();
        const Paper left = turned ? centre.x - beside - width : centre.x - half;
        const Rect box{left, centre.y - pt(label_height / 2), half + beside + width, pt(label_height)};
        places.push_back({centre, std::move(words), turned ? Align::Right : Align::Left, box});
    }
    return places;
}

frame::Group excluded(const Tools& tools, const report::DeviationPlot& plot, const Area& area) {
    frame::Group group{.id = "excluded"};
    for (const ExcludedPlace& place : excluded_places(tools, plot, area)) {
        cross(group.items, tools, place.centre);
        const Paper beside = pt(place.align == Align::Right ? -letter_beside_mark : letter_beside_mark);
        put(group.items, tools, place.words, {}, {place.centre.x + beside, place.centre.y + pt(letter_drop)}, place.align);
    }
    return group;
}

}  // namespace wayfolio::plot::marks
