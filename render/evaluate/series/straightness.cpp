#include "evaluate/series/straightness.hpp"

#include "evaluate/numbers/local_straightness.hpp"
#include "evaluate/series/mean_trace.hpp"
#include "evaluate/series/obstacles.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/numbers/reference_lines.hpp"
#include "evaluate/series/new_series.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::evaluate {

namespace {

using document::ReferenceLine;

constexpr std::array all_lines{ReferenceLine::EndPoint, ReferenceLine::LeastSquares, ReferenceLine::MinimumZone};

Deviation about(const Line& line, const TargetEvaluation& target, Deviation value) {
    return value - Deviation(line.at(target.position.in(units::position_millimetre)), units::micrometre);
}

/// Deviations of one direction's means about the line; without a direction those of the bidirectional means.
void add_residuals(std::vector<Reach>& reaches, Targets targets, std::optional<Approach> approach, const Line& line) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const auto& value = targets[i].mean_of(approach);
        if (!value) continue;
        const Deviation residual = about(line, targets[i], *value);
        reaches.push_back({i, approach, residual, residual});
    }
}

std::vector<Reach> residuals(Targets targets, std::initializer_list<std::optional<Approach>> of, const Line& line) {
    std::vector<Reach> reaches;
    for (const auto approach : of) add_residuals(reaches, targets, approach, line);
    return reaches;
}

/// What `straightness` itself is the range of: both directions, or the one trace there is.
std::vector<Reach> headline_residuals(const SeriesEvaluation& evaluation, const MeanTrace& trace, const Line& line) {
    if (evaluation.kind == SeriesKind::AngleSteps) return residuals(evaluation.targets, {std::nullopt}, line);
    if (trace.one_way) return residuals(evaluation.targets, {trace.one_way}, line);
    return residuals(evaluation.targets, {Approach::Positive, Approach::Negative}, line);
}

/// Why no straightness can be had from this trace.
Obstacle no_line(const SeriesEvaluation& evaluation, const MeanTrace& trace) {
    if (evaluation.error.axis_is_rotary()) return NotEvaluated{"no reference straight line is defined for a rotary axis"};
    if (evaluation.kind != SeriesKind::AngleSteps && !trace.one_way)
        if (auto obstacle = no_shared_target(evaluation.targets)) return obstacle;
    if (trace.x.size() < 3) return NotEvaluated{"needs at least three targets: two always lie on a line"};
    return std::nullopt;
}

Obstacle obstacle_of(const SeriesEvaluation& evaluation, std::string_view name) {
    const Targets targets = evaluation.targets;
    if (name == "straightness_positive") return no_means(targets, Approach::Positive);
    if (name == "straightness_negative") return no_means(targets, Approach::Negative);
    return evaluation.kind == SeriesKind::AngleSteps ? Obstacle{} : no_shared_target(targets);
}

void add_lines(SeriesEvaluation& evaluation, const MeanTrace& trace) {
    for (const ReferenceLine kind : all_lines) {
        const Line line = reference_line(kind, trace);
        const Parameter both = range_parameter({}, evaluation.targets, headline_residuals(evaluation, trace, line));
        evaluation.lines.push_back({.kind = kind,
                                    .straightness = *value_of(both.value),
                                    .slope = units::micrometre_per_metre(line.slope * 1e3),
                                    .offset = Deviation(line.at(0), units::micrometre),
                                    .mean_range = Deviation(extremes_about(line, trace.x, trace.y).range(), units::micrometre),
                                    .one_way = trace.one_way});
    }
}

Parameter about_line(const SeriesEvaluation& evaluation, std::string name, ReferenceLine kind,
                     const std::vector<Reach>& reaches) {
    const auto obstacle = obstacle_of(evaluation, name);
    Parameter parameter = obstacle ? Parameter{.name = std::move(name), .value = *obstacle}
                                   : range_parameter(std::move(name), evaluation.targets, reaches);
    parameter.reference_line = kind;
    return parameter;
}

void add_not_evaluated(SeriesEvaluation& evaluation, const NotEvaluated& why) {
    for (const char* name : {"straightness", "straightness_mean", "straightness_positive", "straightness_negative"})
        evaluation.parameters.push_back({.name = name, .value = why});
}

void add_about_line(SeriesEvaluation& evaluation, const MeanTrace& trace, ReferenceLine kind) {
    const Targets targets = evaluation.targets;
    const Line line = reference_line(kind, trace);
    for (auto& [name, reaches] : std::array<std::pair<std::string, std::vector<Reach>>, 4>{
             {{"straightness", headline_residuals(evaluation, trace, line)},
              {"straightness_mean", residuals(targets, {std::nullopt}, line)},
              {"straightness_positive", residuals(targets, {Approach::Positive}, line)},
              {"straightness_negative", residuals(targets, {Approach::Negative}, line)}}})
        evaluation.parameters.push_back(about_line(evaluation, name, kind, reaches));
}

Parameter slope_parameter(const SeriesEvaluation& evaluation, const MeanTrace& trace, ReferenceLine kind) {
    const auto obstacle = no_line(evaluation, trace);
    if (obstacle && (trace.x.size() < 2 || evaluation.error.axis_is_rotary())) return {.name = "slope", .value = *obstacle};
    const Line line = reference_line(kind, trace);
    return {.name = "slope", .value = Deviation(units::micrometre_per_metre(line.slope * 1e3)), .reference_line = kind};
}

void add_windows(SeriesEvaluation& evaluation, const std::vector<double>& lengths, const MeanTrace& trace) {
    const auto place = [](double mm) { return Position(mm, units::position_millimetre); };
    for (const double length : lengths)
        for (const WindowLine line : {WindowLine::EndPoint, WindowLine::MinimumZone})
            if (const auto window = largest_window(trace.x, trace.y, length, line))
                evaluation.local.push_back(
                    {.window = units::millimetre(length),
                     .value = Deviation(window->value, units::micrometre),
                     .from = place(window->from),
                     .to = place(window->to),
                     .reference = line == WindowLine::EndPoint ? ReferenceLine::EndPoint : ReferenceLine::MinimumZone});
}

void refuse_all(SeriesEvaluation& evaluation, const NotEvaluated& why) {
    add_not_evaluated(evaluation, why);
    for (const char* name : {"slope", "B", "B_mean"}) evaluation.parameters.push_back({.name = name, .value = why});
}

}  // namespace

ReferenceLine headline_line(const document::Document& document) {
    return document.evaluation.straightness_reference.value_or(ReferenceLine::LeastSquares);
}

std::vector<double> local_lengths(const document::Document& document, const document::Series& series, double measured_mm) {
    std::vector<double> lengths{300};
    if (measured_mm >= 2000) lengths.push_back(1000);
    if (document.evaluation.local_straightness_mm) lengths = *document.evaluation.local_straightness_mm;
    for (const document::Tolerance& tolerance : series.tolerances)
        if (tolerance.parameter == "local" && tolerance.length_mm) lengths.push_back(*tolerance.length_mm);
    std::sort(lengths.begin(), lengths.end());
    lengths.erase(std::unique(lengths.begin(), lengths.end()), lengths.end());
    return lengths;
}

void add_straightness(SeriesEvaluation& evaluation, ReferenceLine headline) {
    const MeanTrace trace = mean_trace(evaluation);
    if (const auto obstacle = no_line(evaluation, trace)) {
        add_not_evaluated(evaluation, *obstacle);
    } else {
        add_lines(evaluation, trace);
        add_about_line(evaluation, trace, headline);
    }
    evaluation.parameters.push_back(slope_parameter(evaluation, trace, headline));
    if (evaluation.kind == SeriesKind::AngleSteps) return;
    for (auto& parameter : reversal_parameters(evaluation.targets)) evaluation.parameters.push_back(std::move(parameter));
}

SeriesEvaluation evaluate_straightness(const document::Document& document, const document::Series& series) {
    SeriesEvaluation evaluation = new_series(document, series);
    if (evaluation.source == Source::Stated) {
        refuse_all(evaluation, {"not stated, and no runs to compute it from"});
        return evaluation;
    }
    if (series.runs.empty()) {
        refuse_all(evaluation, {"no runs: parameters are of readings at rest, the trace stands apart"});
        return evaluation;
    }
    if (evaluation.kind == SeriesKind::AngleSteps) {
        const auto heights = heights_from_angle_steps(series);
        evaluation.unit = units::micrometre;
        evaluation.targets.clear();
        std::erase_if(evaluation.missing, [](const MissingReading& missing) { return missing.target == 0; });
        if (const auto* why = std::get_if<NotEvaluated>(&heights)) {
            refuse_all(evaluation, *why);
            return evaluation;
        }
        evaluation.targets = *value_of(heights);
        const auto& [up, down] = evaluation.targets.back().one_way;
        if (up.mean && down.mean) evaluation.closing_error = *up.mean - *down.mean;
    }
    add_straightness(evaluation, headline_line(document));
    const MeanTrace trace = mean_trace(evaluation);
    if (trace.x.size() >= 2 && !evaluation.error.axis_is_rotary())
        add_windows(evaluation, local_lengths(document, series, trace.x.back() - trace.x.front()), trace);
    return evaluation;
}

}  // namespace wayfolio::evaluate
