#include "compare/comparison.hpp"

#include "compare/document_changes.hpp"
#include "compare/pairing.hpp"
#include "compare/reading_changes.hpp"
#include "compare/same_value.hpp"
#include "evaluate/json_parts.hpp"
#include "evaluate/words.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace wayfolio::compare {

namespace {

using evaluate::Evaluation;
using evaluate::SeriesEvaluation;

const results::Series& measured(const results::Document& document, const std::string& id) {
    return *std::ranges::find(document.series, id, &results::Series::id);
}

/// Names what has no counterpart, and whose counterpart is called otherwise.
void name_series(const std::vector<Pair>& pairs, const Side& was, const Side& now, Comparison& comparison) {
    for (const Pair& pair : pairs)
        if (pair.was->id != pair.now->id) comparison.paired_by_error.push_back({pair.was->id, pair.now->id, pair.was->state, pair.now->state});
    for (const SeriesEvaluation& series : was.evaluation.series)
        if (std::ranges::find(pairs, &series, &Pair::was) == pairs.end()) comparison.only_was.push_back(series.id);
    for (const SeriesEvaluation& series : now.evaluation.series)
        if (std::ranges::find(pairs, &series, &Pair::now) == pairs.end()) comparison.only_now.push_back(series.id);
}

std::optional<Deviation> value_of(const evaluate::Parameter* parameter, std::string& reason) {
    if (!parameter) {
        reason = "no such parameter on this side";
        return std::nullopt;
    }
    if (const auto* value = evaluate::value_of(parameter->value)) return *value;
    reason = std::get<evaluate::NotEvaluated>(parameter->value).reason;
    return std::nullopt;
}

std::optional<Deviation> expanded(const Evaluation& evaluation, const std::string& series, const std::string& parameter) {
    const auto* found = evaluate::find_uncertainty(evaluation, series, parameter);
    return found ? std::optional(found->expanded) : std::nullopt;
}

void weigh(ParameterChange& change, bool same_runs) {
    if (change.was && change.now) change.difference = *change.now - *change.was;
    if (!change.difference || !change.expanded_was || !change.expanded_now) return;
    const double was = change.expanded_was->in(change.unit), now = change.expanded_now->in(change.unit);
    const double against = same_runs ? std::max(was, now) : std::hypot(was, now);
    if (against <= 0) return;
    change.yardstick = same_runs ? Yardstick::LargerU : Yardstick::RootSumSquare;
    change.against_U = std::abs(change.difference->in(change.unit)) / against;
}

ParameterChange parameter_change(const std::string& name, const Pair& pair, const Side& was, const Side& now, bool same_runs) {
    ParameterChange change{.series = pair.now->id, .error = pair.now->error.text(), .state = pair.now->state, .parameter = name, .unit = pair.now->unit};
    const evaluate::Parameter* after = evaluate::find_parameter(*pair.now, name);
    const evaluate::Parameter* before = evaluate::find_parameter(*pair.was, name);
    change.now = value_of(after, change.reason_now);
    change.was = value_of(before, change.reason_was);
    // A slope is an angle though its readings are lengths; a straightness by angle steps the other way about.
    if (const auto& given = change.now ? change.now : change.was) change.unit = evaluate::written_unit(*given, pair.now->unit);
    change.expanded_was = expanded(was.evaluation, pair.was->id, name);
    change.expanded_now = expanded(now.evaluation, pair.now->id, name);
    weigh(change, same_runs);
    return change;
}

void add_parameters(const Pair& pair, const Side& was, const Side& now, bool same_runs, Comparison& comparison) {
    std::vector<std::string> names;
    for (const auto* side : {pair.now, pair.was})
        for (const evaluate::Parameter& parameter : side->parameters)
            if (std::ranges::find(names, parameter.name) == names.end()) names.push_back(parameter.name);
    for (const std::string& name : names) comparison.parameters.push_back(parameter_change(name, pair, was, now, same_runs));
}

using Verdicts = std::map<std::pair<std::string, std::string>, std::string>;

/// By series (of the new document) and parameter, a local limit by its length too; without the series that have no counterpart.
/// `new_ids` gives the ids of the new document for those of this side.
Verdicts verdicts_of(const Evaluation& evaluation, const std::map<std::string, std::string>& new_ids) {
    Verdicts verdicts;
    for (const evaluate::Decision& decision : evaluation.decisions) {
        std::string parameter = decision.parameter, series;
        if (decision.axes) {
            parameter += " of " + (*decision.axes)[0] + " and " + (*decision.axes)[1];
        } else {
            const auto known = new_ids.find(decision.series);
            if (known == new_ids.end()) continue;
            series = known->second;
        }
        if (decision.length_mm) parameter += " over " + std::to_string(std::lround(*decision.length_mm)) + " mm";
        verdicts.emplace(std::pair(series, parameter), evaluate::word(decision.outcome));
    }
    return verdicts;
}

void add_verdicts(const std::vector<Pair>& pairs, const Side& was, const Side& now, Comparison& comparison) {
    std::map<std::string, std::string> from_was, from_now;
    for (const Pair& pair : pairs) from_was[pair.was->id] = from_now[pair.now->id] = pair.now->id;
    const Verdicts before = verdicts_of(was.evaluation, from_was), after = verdicts_of(now.evaluation, from_now);
    const auto word = [](const Verdicts& verdicts, const auto& key) {
        const auto found = verdicts.find(key);
        return found == verdicts.end() ? std::string() : found->second;
    };
    Verdicts all = after;
    all.insert(before.begin(), before.end());
    for (const auto& [key, outcome] : all)
        if (word(before, key) != word(after, key)) comparison.verdicts.push_back({key.first, key.second, word(before, key), word(after, key)});
}

}  // namespace

bool ParameterChange::differs() const { return !same_value(was, now) || !same_value(expanded_was, expanded_now); }

bool Comparison::same() const {
    return only_was.empty() && only_now.empty() && changes.empty() && readings.empty() && verdicts.empty() && std::ranges::none_of(parameters, &ParameterChange::differs);
}

Comparison compare(const Side& was, const Side& now) {
    const std::vector<Pair> pairs = paired(was.evaluation, now.evaluation);
    Comparison comparison{.was = was.name, .now = now.name, .series_compared = pairs.size()};
    name_series(pairs, was, now, comparison);
    comparison.changes = document_changes(was.document.bytes, now.document.bytes, comparison.paired_by_error);
    for (const Pair& pair : pairs) {
        ReadingChanges readings = reading_changes(measured(was.document, pair.was->id), measured(now.document, pair.now->id));
        const bool same_runs = readings.same_runs();
        if (!readings.none()) comparison.readings.push_back(std::move(readings));
        add_parameters(pair, was, now, same_runs, comparison);
    }
    add_verdicts(pairs, was, now, comparison);
    return comparison;
}

}  // namespace wayfolio::compare
