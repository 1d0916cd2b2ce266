#include "evaluate/uncertainty/conformity.hpp"

#include "document/parameter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace wayfolio::evaluate {

namespace {

using document::DecisionRule;
using document::ReferenceLine;

/// What a tolerance is held against.
struct JudgedValue {
    std::optional<Deviation> value;
    bool signed_value = false;  ///< the limit then bounds the magnitude
    bool stated = false;        ///< as the document states it, not recomputed
    std::string reason;         ///< why there is no value
    const ParameterUncertainty* uncertainty = nullptr;
    std::optional<ReferenceLine> reference_line;
};

bool same_length(std::optional<double> a, double b) { return a && std::abs(*a - b) <= 1e-9 * std::abs(b); }

const ParameterUncertainty* entry_for(const Evaluation& evaluation, const std::string& series,
                                           const document::Tolerance& tolerance) {
    for (const auto& entry : evaluation.uncertainty) {
        if (entry.series != series || entry.parameter != tolerance.parameter) continue;
        if (entry.length_mm && !same_length(tolerance.length_mm, *entry.length_mm)) continue;
        return &entry;
    }
    return nullptr;
}

/// The windows' own minimum zone where that is the document's line; otherwise their end-point chord.
JudgedValue judged_local(const SeriesEvaluation& series, const document::Tolerance& tolerance, ReferenceLine headline) {
    const ReferenceLine line = headline == ReferenceLine::MinimumZone ? ReferenceLine::MinimumZone : ReferenceLine::EndPoint;
    for (const LocalStraightness& local : series.local)
        if (local.reference == line && tolerance.length_mm &&
            same_length(local.window.in(units::millimetre), *tolerance.length_mm))
            return {.value = local.value, .reason = {}, .reference_line = line};
    if (!tolerance.length_mm) return {.value = {}, .reason = "the limit has no length", .reference_line = {}};
    return {.value = {}, .reason = fmt::format("the series has no window of {} mm", *tolerance.length_mm), .reference_line = {}};
}

JudgedValue judged_parameter(const SeriesEvaluation& series, const document::Tolerance& tolerance) {
    const Parameter* parameter = find_parameter(series, tolerance.parameter);
    if (!parameter)
        return {.value = {}, .reason = fmt::format("this series has no parameter {}", tolerance.parameter), .reference_line = {}};
    // Where there are readings, what they cannot give is not taken from elsewhere.
    const bool stated = series.source == Source::Stated && parameter->stated;
    const Deviation* value = stated ? &*parameter->stated : value_of(parameter->value);
    if (value)
        return {.value = *value,
                .signed_value = document::is_signed(parameter->name),
                .stated = stated,
                .reason = {},
                .reference_line = parameter->reference_line};
    return {.value = {}, .reason = std::get<NotEvaluated>(parameter->value).reason, .reference_line = {}};
}

void not_decided(Decision& decision, std::string reason) {
    decision.outcome = Outcome::NotDecided;
    decision.reason = std::move(reason);
}

/// Fills in what a value and its U say. Everything is computed in the unit of the limit.
void apply_rule(Decision& decision, const JudgedValue& judged) {
    const DeviationUnit& unit = decision.unit;
    const double limit = decision.limit.in(unit);
    const double value = judged.signed_value ? std::abs(judged.value->in(unit)) : judged.value->in(unit);
    decision.margin = Deviation(limit - value, unit);
    double guard = 0, guard_below = 0;
    if (judged.uncertainty) {
        const double expanded = judged.uncertainty->expanded.in(unit), at_random = judged.uncertainty->without_known_bias().in(unit);
        const double k = judged.uncertainty->coverage_factor, known = expanded - at_random;
        guard = guard_band(decision.rule, at_random, k);
        // A known bias has no distribution to take a part of: it stands in every guard band in full.
        if (decision.rule != DecisionRule::Simple) guard += known;
        guard_below = rejection_guard(decision.rule, guard, *judged.uncertainty, unit);
        if (guard_below > guard) decision.guard_below = Deviation(guard_below, unit);
        decision.expanded = judged.uncertainty->expanded;
        decision.margin_after_U = Deviation(limit - value - expanded, unit);
        const double lower = judged.signed_value ? -limit : -std::numeric_limits<double>::infinity();
        decision.probability_of_conformity =
            probability_of_conformity(value + known, at_random / k, judged.uncertainty->degrees_of_freedom, lower, limit);
    }
    decision.guard = Deviation(guard, unit);
    decision.acceptance_limit = Deviation(limit - guard, unit);
    decision.outcome = judge(decision.rule, value, limit, guard, guard_below);
}

void settle(Decision& decision, const JudgedValue& judged) {
    decision.reference_line = judged.reference_line;
    if (!judged.value) return not_decided(decision, judged.reason);
    if (judged.value->dimension() != decision.unit.dimension)
        return not_decided(decision, fmt::format("a limit in {} cannot bound a result of another kind", decision.unit.spelling));
    decision.value = judged.value;
    decision.stated = judged.stated;
    if (!judged.uncertainty && decision.rule != DecisionRule::Simple)
        return not_decided(decision, "the rule needs an expanded uncertainty, and the document gives none for this result");
    apply_rule(decision, judged);
}

Decision open_decision(const document::Document& document, const document::Tolerance& tolerance) {
    const auto stated = document.evaluation.decision_rule;
    return {.series = {},
            .parameter = tolerance.parameter,
            .axes = {},
            .length_mm = tolerance.length_mm,
            .reference_line = {},
            .source = tolerance.source,
            .limit = tolerance.limit,
            .unit = tolerance.unit,
            .value = {},
            .expanded = {},
            .guard = {},
            .acceptance_limit = {},
            .margin = {},
            .margin_after_U = {},
            .probability_of_conformity = {},
            .rule = stated.value_or(DecisionRule::Simple),
            .rule_stated = stated.has_value(),
            .outcome = Outcome::NotDecided,
            .reason = {}};
}

Decision decide_series(const document::Document& document, const Evaluation& evaluation, const std::string& id,
                       const document::Tolerance& tolerance) {
    Decision decision = open_decision(document, tolerance);
    decision.series = id;
    const SeriesEvaluation* series = find_series(evaluation, id);
    JudgedValue judged;
    if (!series)
        judged.reason = "the series is not evaluated";
    else if (tolerance.parameter == "local")
        judged =
            judged_local(*series, tolerance, document.evaluation.straightness_reference.value_or(ReferenceLine::LeastSquares));
    else
        judged = judged_parameter(*series, tolerance);
    judged.uncertainty = entry_for(evaluation, id, tolerance);
    settle(decision, judged);
    return decision;
}

Decision decide_squareness(const document::Document& document, const Evaluation& evaluation,
                           const document::SquarenessRequest& request) {
    Decision decision = open_decision(document, *request.tolerance);
    decision.series = request.series[0];
    decision.parameter = "squareness";
    decision.axes = request.axes;
    JudgedValue judged;
    judged.signed_value = true;
    judged.reason = "the squareness is not evaluated";
    for (const SquarenessEvaluation& squareness : evaluation.squareness) {
        if (squareness.axes != request.axes || squareness.series != request.series) continue;
        judged.reference_line = squareness.reference_line;
        if (const units::Angle* value = value_of(squareness.value))
            judged.value = Deviation(*value);
        else
            judged.reason = std::get<NotEvaluated>(squareness.value).reason;
    }
    for (const ParameterUncertainty& entry : evaluation.uncertainty)
        if (entry.parameter == "squareness" && entry.series == request.series[0] && entry.axes == request.axes)
            judged.uncertainty = &entry;
    settle(decision, judged);
    return decision;
}

}  // namespace

std::vector<Decision> decide(const document::Document& document, const Evaluation& evaluation) {
    std::vector<Decision> decisions;
    for (const document::Series& series : document.series)
        for (const document::Tolerance& tolerance : series.tolerances)
            decisions.push_back(decide_series(document, evaluation, series.id, tolerance));
    for (const document::SquarenessRequest& request : document.squareness)
        if (request.tolerance) decisions.push_back(decide_squareness(document, evaluation, request));
    return decisions;
}

}  // namespace wayfolio::evaluate
