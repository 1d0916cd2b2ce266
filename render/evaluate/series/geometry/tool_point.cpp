#include "evaluate/series/geometry/geometry.hpp"

#include "evaluate/series/error_curve.hpp"
#include "evaluate/series/extremes.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/series/targets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace wayfolio::evaluate {

namespace {

/// One term of rotation x t: an angle and the signed arm it acts on.
struct Term {
    char rotation;
    double arm_mm;
};

std::vector<Term> terms_of(char direction, const std::array<double, 3>& t) {
    std::vector<Term> terms;
    if (direction == 'X') terms = {{'B', t[2]}, {'C', -t[1]}};
    if (direction == 'Y') terms = {{'C', t[0]}, {'A', -t[2]}};
    if (direction == 'Z') terms = {{'A', t[1]}, {'B', -t[0]}};
    std::erase_if(terms, [](const Term& term) { return term.arm_mm == 0; });
    return terms;
}

/// A term with the angles that give it, as read in each direction.
struct Lever {
    Lever(double arm, const SeriesEvaluation& angles)
        : arm_mm(arm), curves{error_curve(angles, Approach::Positive), error_curve(angles, Approach::Negative)} {}
    double arm_mm;
    document::ByApproach<ErrorCurve> curves;
};

std::optional<std::array<double, 3>> offset_of(const document::Document& document, const SeriesEvaluation& series) {
    const document::Series* source = document::find_series(document, series.id);
    const bool moved = series.kind != SeriesKind::AngleSteps && series.source == Source::Runs;
    if (!source || !moved || series.error.axis_is_rotary()) return std::nullopt;
    const document::MeasurementLine* line = document::measurement_line(document, *source);
    return line ? line->offset_to_tool_point_mm : std::nullopt;
}

/// Distance of the tool point from the axis that an angle turns about, through the measurement line.
double arm_of(char rotation, const std::array<double, 3>& t) {
    if (rotation == 'A') return std::hypot(t[1], t[2]);
    return rotation == 'B' ? std::hypot(t[0], t[2]) : std::hypot(t[0], t[1]);
}

const SeriesEvaluation* angle_series(const std::vector<SeriesEvaluation>& all, const SeriesEvaluation& of, char rotation) {
    for (const SeriesEvaluation& series : all) {
        const bool same = series.error.axis == of.error.axis && series.error.direction == rotation && series.state == of.state;
        if (same && series.kind == SeriesKind::Angle && series.source == Source::Runs) return &series;
    }
    return nullptr;
}

/// What rotation x t adds at a place; nothing where an angle was not read there in this direction.
std::optional<Deviation> effect_at(const std::vector<Lever>& levers, const Position& place, Approach approach) {
    Deviation effect = units::micrometre(0);
    for (const Lever& lever : levers) {
        const ErrorCurve& curve = lever.curves[approach];
        if (curve.places.empty()) return std::nullopt;
        // A place written in inches may lie a hair beyond the same place in millimetres.
        const Position read = std::clamp(place, curve.places.front(), curve.places.back());
        if (units::abs(place - read) > units::micrometre(0.1)) return std::nullopt;
        effect = effect + Deviation(curve.at(read).in(units::microradian)*lever.arm_mm * 1e-3, units::micrometre);
    }
    return effect;
}

/// The range of the effects over both approaches, by which two places it is set.
void add_largest(AtToolPoint& moved, Targets targets) {
    std::vector<Reach> reaches;
    for (std::size_t i = 0; i < moved.targets.size(); ++i)
        for (const Approach approach : document::both_approaches)
            if (const auto& effect = moved.targets[i].effect[approach]) reaches.push_back({i, approach, *effect, *effect});
    if (reaches.empty()) return;
    const Parameter range = range_parameter("largest", targets, reaches);
    moved.largest = *value_of(range.value);
    moved.set_by = range.set_by;
}

AtToolPoint::Target moved_target(const TargetEvaluation& target, const std::vector<Lever>& levers) {
    AtToolPoint::Target moved{.position = target.position};
    for (const Approach approach : document::both_approaches) {
        const auto& measured = target.one_way[approach].mean;
        if (!measured) continue;
        moved.effect[approach] = effect_at(levers, target.position, approach);
        if (moved.effect[approach]) moved.mean[approach] = *measured + *moved.effect[approach];
    }
    return moved;
}

/// The series with its means moved, without scatter.
SeriesEvaluation with_means_moved(const SeriesEvaluation& series, const AtToolPoint& moved) {
    SeriesEvaluation there = series;
    there.parameters.clear();
    there.lines.clear();
    there.targets.clear();
    for (std::size_t i = 0; i < moved.targets.size(); ++i) {
        TargetEvaluation target{
            .index = series.targets[i].index, .position = series.targets[i].position, .written = series.targets[i].written};
        for (const Approach approach : document::both_approaches) target.one_way[approach].mean = moved.targets[i].mean[approach];
        derive_target(target);
        there.targets.push_back(target);
    }
    return there;
}

/// Its parameters too, and its lines.
SeriesEvaluation evaluated_there(const document::Document& document, const SeriesEvaluation& series, const AtToolPoint& moved) {
    SeriesEvaluation there = with_means_moved(series, moved);
    if (series.kind == SeriesKind::Straightness) {
        add_straightness(there, headline_line(document));
        return there;
    }
    there.parameters = positioning_parameters(there.targets, series.position_unit);
    std::erase_if(there.parameters,
                  [](const Parameter& parameter) { return parameter.name.front() == 'A' || parameter.name.front() == 'R'; });
    return there;
}

void refuse(AtToolPoint& moved, const SeriesEvaluation& series, const std::string& reason) {
    const char* names[] = {series.kind == SeriesKind::Positioning ? "E" : "straightness", "B", "B_mean"};
    for (const char* name : names) moved.parameters.push_back({.name = name, .value = NotEvaluated{reason}});
}

/// A target that has a mean but no effect: the angles do not cover it.
const TargetEvaluation* uncovered(const SeriesEvaluation& series, const AtToolPoint& moved) {
    for (std::size_t i = 0; i < series.targets.size(); ++i) {
        const TargetEvaluation& target = series.targets[i];
        for (const Approach approach : document::both_approaches)
            if (target.one_way[approach].mean && !moved.targets[i].effect[approach]) return &target;
    }
    return nullptr;
}

AtToolPoint at_tool_point(const document::Document& document, const std::vector<SeriesEvaluation>& all,
                          const SeriesEvaluation& series, const std::array<double, 3>& offset) {
    AtToolPoint moved{.offset_mm = offset, .unit = series.unit};
    std::vector<Lever> levers;
    for (const Term& term : terms_of(series.error.direction, offset)) {
        const SeriesEvaluation* angles = angle_series(all, series, term.rotation);
        if (!angles) {
            refuse(moved, series, fmt::format("needs E{}{} in the same state", term.rotation, series.error.axis));
            return moved;
        }
        levers.emplace_back(term.arm_mm, *angles);
        moved.from.push_back(angles->id);
    }
    for (const TargetEvaluation& target : series.targets) moved.targets.push_back(moved_target(target, levers));
    add_largest(moved, series.targets);
    if (const TargetEvaluation* target = uncovered(series, moved))
        refuse(
            moved, series,
            fmt::format("the angles were not read at {} {} in each approach", target->written, series.position_unit.spelling));
    else
        moved.parameters = evaluated_there(document, series, moved).parameters;
    return moved;
}

/// What one angle alone does there: its means times the arm, whatever direction that is in.
AtToolPoint effect_of_angle(const SeriesEvaluation& angles, const std::array<double, 3>& offset) {
    AtToolPoint moved{.offset_mm = offset, .unit = units::micrometre};
    moved.from.push_back(angles.id);
    const std::vector<Lever> lever{{arm_of(angles.error.direction, offset), angles}};
    for (const TargetEvaluation& target : angles.targets) {
        moved.targets.push_back({.position = target.position});
        for (const Approach approach : document::both_approaches)
            if (target.one_way[approach].mean) moved.targets.back().effect[approach] = effect_at(lever, target.position, approach);
    }
    add_largest(moved, angles.targets);
    return moved;
}

}  // namespace

SeriesEvaluation at_functional_point(const document::Document& document, const SeriesEvaluation& series) {
    const AtToolPoint& moved = series.at_tool_point.value();
    if (!uncovered(series, moved)) return evaluated_there(document, series, moved);
    SeriesEvaluation there = with_means_moved(series, moved);
    there.lines = series.lines;
    return there;
}

void add_tool_points(const document::Document& document, std::vector<SeriesEvaluation>& series) {
    for (SeriesEvaluation& each : series)
        if (const auto offset = offset_of(document, each))
            each.at_tool_point =
                each.kind == SeriesKind::Angle ? effect_of_angle(each, *offset) : at_tool_point(document, series, each, *offset);
}

}  // namespace wayfolio::evaluate
