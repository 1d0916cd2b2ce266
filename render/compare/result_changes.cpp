#include "compare/changes.hpp"

#include "evaluate/uncertainty/change_uncertainty.hpp"
#include "evaluate/written/json_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::compare {

namespace {

using evaluate::Evaluation;
using evaluate::LocalStraightness;
using evaluate::SeriesEvaluation;
using Parameters = std::vector<evaluate::Parameter>;

/// What a result of a series is told by, before its values are known.
ParameterChange named_change(const SeriesPair& pair, std::string parameter, std::string name) {
    return {.series = pair.now->id,
            .error = pair.now->error.text(),
            .state = pair.now->state,
            .parameter = std::move(parameter),
            .name = std::move(name),
            .unit = pair.now->unit};
}

/// A slope is an angle though its readings are lengths; a straightness by angle steps the other way about.
void settle_unit(ParameterChange& change, const Found& was, const Found& now) {
    if (const auto& given = now.value ? now.value : was.value) change.unit = evaluate::written_unit(*given, change.unit);
}

Found found_in(const Parameters& parameters, const std::string& name) {
    const auto parameter = std::ranges::find(parameters, name, &evaluate::Parameter::name);
    if (parameter == parameters.end()) return {};
    if (const auto* value = evaluate::value_of(parameter->value)) return {.value = *value, .reason = {}};
    return {.reason = std::get<evaluate::NotEvaluated>(parameter->value).reason};
}

/// Names of both sides, those of the new first.
std::vector<std::string> names_of(const Parameters& now, const Parameters& was) {
    std::vector<std::string> names;
    for (const auto* side : {&now, &was})
        for (const evaluate::Parameter& parameter : *side)
            if (std::ranges::find(names, parameter.name) == names.end()) names.push_back(parameter.name);
    return names;
}

void add_measured(std::vector<ParameterChange>& changes, const SeriesPair& pair, const Side& was, const Side& now, bool same_runs) {
    const auto side_of = [](const Side& side, const SeriesEvaluation& series, const std::string& name) {
        Found found = found_in(series.parameters, name);
        found.uncertainty = evaluate::find_uncertainty(side.evaluation, series.id, name);
        return found;
    };
    for (const std::string& name : names_of(pair.now->parameters, pair.was->parameters)) {
        ParameterChange change = named_change(pair, name, name);
        const Found before = side_of(was, *pair.was, name), after = side_of(now, *pair.now, name);
        settle_unit(change, before, after);
        weigh(change, before, after, same_runs, now.document);
        changes.push_back(std::move(change));
    }
}

bool same_length(double a, double b) { return std::abs(a - b) <= 1e-9 * std::abs(b); }

bool same_window(const LocalStraightness& a, const LocalStraightness& b) {
    return a.reference == b.reference && same_length(a.window.in(units::millimetre), b.window.in(units::millimetre));
}

/// The uncertainty is of the length, or stated for all lengths.
Found local_found(const Evaluation& evaluation, const SeriesEvaluation& series, const LocalStraightness& like) {
    const auto local = std::ranges::find_if(series.local, [&](const LocalStraightness& one) { return same_window(one, like); });
    if (local == series.local.end()) return {.reason = "no window of this length on this side"};
    Found found{.value = local->value, .reason = {}};
    for (const evaluate::ParameterUncertainty& one : evaluation.uncertainty) {
        if (one.series != series.id || one.parameter != "local") continue;
        if (one.length_mm && !same_length(*one.length_mm, local->window.in(units::millimetre))) continue;
        found.uncertainty = &one;
        break;
    }
    return found;
}

std::string local_name(const LocalStraightness& local) {
    const char* line = local.reference == document::ReferenceLine::MinimumZone ? "minimum zone" : "end-point chord";
    return fmt::format("local over {}, {}", length_words(local.window.in(units::millimetre)), line);
}

void add_local(std::vector<ParameterChange>& changes, const SeriesPair& pair, const Side& was, const Side& now, bool same_runs) {
    std::vector<LocalStraightness> windows = pair.now->local;
    for (const LocalStraightness& one : pair.was->local)
        if (std::ranges::none_of(pair.now->local, [&](const LocalStraightness& other) { return same_window(one, other); }))
            windows.push_back(one);
    for (const LocalStraightness& window : windows) {
        ParameterChange change = named_change(pair, local_name(window), "local");
        change.length_mm = window.window.in(units::millimetre);
        change.line = window.reference;
        const Found before = local_found(was.evaluation, *pair.was, window), after = local_found(now.evaluation, *pair.now, window);
        settle_unit(change, before, after);
        weigh(change, before, after, same_runs, now.document);
        changes.push_back(std::move(change));
    }
}

/// An additional result without an uncertainty of its own.
void add_tool_point(std::vector<ParameterChange>& changes, const SeriesPair& pair, const Side& now, bool same_runs) {
    static const Parameters none;
    const auto of = [](const SeriesEvaluation& series) -> const Parameters& {
        return series.at_tool_point ? series.at_tool_point->parameters : none;
    };
    for (const std::string& name : names_of(of(*pair.now), of(*pair.was))) {
        ParameterChange change = named_change(pair, name + " at the functional point", name);
        change.at_tool_point = true;
        const Found before = found_in(of(*pair.was), name), after = found_in(of(*pair.now), name);
        settle_unit(change, before, after);
        weigh(change, before, after, same_runs, now.document);
        changes.push_back(std::move(change));
    }
}

}  // namespace

std::string length_words(double length_mm) { return fmt::format("{} mm", length_mm); }

void weigh(ParameterChange& change, const Found& before, const Found& after, bool same_runs, const document::Document& document) {
    change.was = before.value;
    change.now = after.value;
    if (before.uncertainty) change.expanded_was = before.uncertainty->expanded;
    if (after.uncertainty) change.expanded_now = after.uncertainty->expanded;
    change.reason_was = before.value ? "" : before.reason;
    change.reason_now = after.value ? "" : after.reason;
    if (change.was && change.now) change.difference = *change.now - *change.was;
    if (!before.uncertainty || !after.uncertainty) return;
    change.factor_was = before.uncertainty->coverage_factor;
    change.factor_now = after.uncertainty->coverage_factor;
    if (!change.difference) return;
    const auto U = same_runs ? evaluate::uncertainty_of_shared(document, *before.uncertainty, *after.uncertainty)
                             : evaluate::uncertainty_of_change(document, *before.uncertainty, *after.uncertainty);
    if (!(U.expanded.in(change.unit) > 0)) return;
    change.yardstick = same_runs ? Yardstick::LargerU : Yardstick::RootSumSquare;
    change.expanded_difference = U.expanded;
    change.against_U = units::abs(*change.difference) / U.expanded;
}

std::vector<ParameterChange> result_changes(const SeriesPair& pair, const Side& was, const Side& now, bool same_runs) {
    std::vector<ParameterChange> changes;
    add_measured(changes, pair, was, now, same_runs);
    add_local(changes, pair, was, now, same_runs);
    add_tool_point(changes, pair, now, same_runs);
    return changes;
}

}  // namespace wayfolio::compare
