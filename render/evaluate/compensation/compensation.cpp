#include "evaluate/compensation/compensation.hpp"

#include "evaluate/series/positioning.hpp"
#include "evaluate/series/targets.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

namespace {

using document::TableKind;

/// Halves away from zero; a half that doubles only just miss counts as one.
double rounded(double value, double increment) {
    const double steps = std::abs(value) / increment;
    return std::copysign(std::floor(steps + 0.5 + 1e-9) * increment, value) + 0.0;
}

std::vector<CompensationPoint> points_of(const CompensationEvaluation& made, const ErrorCurve& curve) {
    const DeviationUnit& unit = made.unit;
    const double zero = curve.at(made.reference).in(unit);
    std::vector<CompensationPoint> points;
    for (const Position& place : table_places(made, curve)) {
        const double exact = -(curve.at(place).in(unit)-zero);
        const Deviation correction(rounded(exact, made.increment), unit);
        const Deviation before = points.empty() ? correction : points.back().correction;
        points.push_back({place, Deviation(exact, unit), correction, correction - before});
    }
    return points;
}

std::optional<Deviation> reversal_of(const CompensationEvaluation& made, const SeriesEvaluation& series) {
    std::optional<Deviation> exact;
    if (made.kind == TableKind::Both) {
        const ErrorCurve positive = error_curve(series, Approach::Positive), negative = error_curve(series, Approach::Negative);
        exact = positive.at(made.reference) - negative.at(made.reference);
    } else if (const Parameter* mean = find_parameter(series, "B_mean"); mean && value_of(mean->value)) {
        exact = *value_of(mean->value);
    }
    if (!exact) return std::nullopt;
    return Deviation(rounded(exact->in(made.unit), made.increment), made.unit);
}

const CompensationTable& table_for(const CompensationEvaluation& made, Approach approach) {
    for (const CompensationTable& table : made.tables)
        if (made.kind == TableKind::Both && table.approach == approach) return table;
    return made.tables.front();
}

std::vector<TargetEvaluation> with_table(const CompensationEvaluation& made, const SeriesEvaluation& series) {
    std::vector<TargetEvaluation> targets = series.targets;
    for (TargetEvaluation& target : targets) {
        target.mean.reset();
        target.reversal.reset();
        target.R.reset();
        for (const Approach approach : document::both_approaches) {
            auto& mean = target.one_way[approach].mean;
            if (!mean) continue;
            mean = *mean + correction_at(table_for(made, approach), target.position);
            if (made.reversal && approach == Approach::Negative) mean = *mean + *made.reversal;
        }
        derive_target(target);
    }
    return targets;
}

void add_prediction(CompensationEvaluation& made, const SeriesEvaluation& series) {
    const std::vector<TargetEvaluation> targets = with_table(made, series);
    for (const TargetEvaluation& target : targets)
        made.predicted_targets.push_back({target.position, {target.one_way.positive.mean, target.one_way.negative.mean}, target.mean});
    made.predicted = positioning_parameters(targets, series.position_unit);
}

CompensationEvaluation opened(const document::CompensationRequest& request, const document::Document& document) {
    const document::Axis* axis = document::find_axis(document, request.axis);
    const bool rotary = axis ? axis->kind == document::AxisKind::Rotary : request.axis.find_first_of("ABC") != std::string::npos;
    const PositionUnit places = rotary ? units::position_degree : units::position_millimetre;
    double increment = request.increment;
    if (!(increment > 0) && !rotary && document.machine) increment = document.machine->least_increment_um.value_or(0);
    return {.axis = request.axis,
            .series = request.series,
            .kind = request.table,
            .unit = rotary ? DeviationUnit(units::arcsecond) : DeviationUnit(units::micrometre),
            .position_unit = places,
            .reference = Position(request.reference, places),
            .spacing = request.spacing,
            .increment = increment,
            .refused = {},
            .remarks = {},
            .tables = {},
            .reversal = {},
            .predicted_targets = {},
            .predicted = {}};
}

CompensationEvaluation made_table(const document::Document& document, const document::CompensationRequest& request,
                                    const std::vector<SeriesEvaluation>& all) {
    CompensationEvaluation made = opened(request, document);
    const SeriesEvaluation* series = find_series(all, request.series);
    made.refused = refusals(made, series);
    if (!made.refused.empty()) return made;
    for (const auto approach : approaches_of(made.kind))
        made.tables.push_back({approach, points_of(made, error_curve(*series, approach))});
    made.reversal = reversal_of(made, *series);
    add_prediction(made, *series);
    made.remarks = table_remarks(made, *series);
    return made;
}

}  // namespace

Deviation correction_at(const CompensationTable& table, const Position& position) {
    const auto next =
        std::find_if(table.points.begin(), table.points.end(), [&](const auto& point) { return point.position >= position; });
    if (next == table.points.begin()) return next->correction;
    if (next == table.points.end()) return table.points.back().correction;
    const CompensationPoint& before = *std::prev(next);
    const double share = (position - before.position) / (next->position - before.position);
    return before.correction + (next->correction - before.correction) * share;
}

std::vector<CompensationEvaluation> evaluate_compensation(const document::Document& document,
                                                          const std::vector<SeriesEvaluation>& series) {
    std::vector<CompensationEvaluation> all;
    for (const document::CompensationRequest& request : document.compensation)
        all.push_back(made_table(document, request, series));
    return all;
}

}  // namespace wayfolio::evaluate
