#include "plot/marks/curves.hpp"

#include "plot/approach_roles.hpp"
#include "plot/spacing.hpp"

#include <algorithm>

namespace wayfolio::plot::marks {
namespace {

using evaluate::TargetEvaluation;

bool positive(Approach approach) { return approach == Approach::Positive; }

bool keeps_marker(const report::DeviationPlot& plot, std::size_t target) {
    constexpr std::size_t too_many = 120;
    if (plot.targets.size() <= too_many) return true;
    return std::ranges::any_of(plot.ticks, [&](const auto& tick) { return tick.target == target; });
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
    const ApproachRoles roles = roles_of(approach);
    frame::Stroke pen = stroke(tools, PenRole::BandHatch);
    pen.colour = tools.layout.colour(roles.hatch);
    for (const auto& outline : band_outlines(plot, area, approach)) {
        group.items.emplace_back(filled(tools, roles.tint, outline));
        group.items.emplace_back(
            hatch(pen, outline, tools.layout.size(SizeRole::HatchPitch), positive(approach) ? HatchSlope::Rising : HatchSlope::Falling));
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
    if (points.size() > 1) group.items.emplace_back(polyline(tools, PenRole::Trace, points));
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
