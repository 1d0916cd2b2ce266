#include "compare/comparison.hpp"

#include "compare/changes.hpp"
#include "document/states.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::compare {

namespace {

using evaluate::Evaluation;
using evaluate::SeriesEvaluation;

const document::Series& measured(const document::Document& document, const std::string& id) {
    return *std::ranges::find(document.series, id, &document::Series::id);
}

/// Names what has no counterpart, and whose counterpart is called otherwise.
void name_series(const std::vector<SeriesPair>& pairs, const Side& was, const Side& now, Comparison& comparison) {
    for (const SeriesPair& pair : pairs)
        if (pair.was->id != pair.now->id)
            comparison.paired_by_error.push_back({pair.was->id, pair.now->id, pair.was->state, pair.now->state});
    for (const SeriesEvaluation& series : was.evaluation.series)
        if (std::ranges::find(pairs, &series, &SeriesPair::was) == pairs.end()) comparison.only_was.push_back(series.id);
    for (const SeriesEvaluation& series : now.evaluation.series)
        if (std::ranges::find(pairs, &series, &SeriesPair::now) == pairs.end()) comparison.only_now.push_back(series.id);
}

using Verdicts = std::map<std::pair<std::string, std::string>, const evaluate::Decision*>;

/// What a side's series and squarenesses are called in the comparison.
struct Names {
    std::map<std::string, std::string> series;                                            ///< ids of the new document by those of this side
    std::map<std::pair<std::array<std::string, 2>, std::string>, std::string> squareness;  ///< by axes and the first series
};

/// By series (of the new document) and parameter, a local limit by its length too; without what has no counterpart.
Verdicts verdicts_of(const Evaluation& evaluation, const Names& names) {
    Verdicts verdicts;
    for (const evaluate::Decision& decision : evaluation.decisions) {
        std::string parameter = decision.parameter, series;
        if (decision.axes) {
            const auto known = names.squareness.find({*decision.axes, decision.series});
            if (known == names.squareness.end()) continue;
            parameter = known->second;
        } else {
            const auto known = names.series.find(decision.series);
            if (known == names.series.end()) continue;
            series = known->second;
        }
        if (decision.length_mm) parameter += " over " + length_words(*decision.length_mm);
        verdicts.emplace(std::pair(series, parameter), &decision);
    }
    return verdicts;
}

void add_verdicts(const std::vector<SeriesPair>& pairs, const std::vector<SquarenessPair>& squarenesses, const Side& was, const Side& now,
                  Comparison& comparison) {
    Names from_was, from_now;
    for (const SeriesPair& pair : pairs) from_was.series[pair.was->id] = from_now.series[pair.now->id] = pair.now->id;
    for (const SquarenessPair& pair : squarenesses) {
        if (pair.was) from_was.squareness[{pair.was->axes, pair.was->series[0]}] = pair.parameter;
        if (pair.now) from_now.squareness[{pair.now->axes, pair.now->series[0]}] = pair.parameter;
    }
    const Verdicts before = verdicts_of(was.evaluation, from_was), after = verdicts_of(now.evaluation, from_now);
    const auto decision = [](const Verdicts& verdicts, const auto& key) {
        const auto found = verdicts.find(key);
        return found == verdicts.end() ? nullptr : found->second;
    };
    const auto outcome = [](const evaluate::Decision* one) { return one ? std::optional(one->outcome) : std::nullopt; };
    Verdicts all = after;
    all.insert(before.begin(), before.end());
    for (const auto& [key, any] : all) {
        const auto *old = decision(before, key), *fresh = decision(after, key);
        if (evaluate::standing_of(old) != evaluate::standing_of(fresh))
            comparison.verdicts.push_back(
                {key.first, key.second, evaluate::standing_of(old), evaluate::standing_of(fresh), outcome(old), outcome(fresh)});
    }
}

/// The states of a side, by its series.
std::optional<document::StatesCompared> states_of(const Side& side) { return document::states_compared(side.document); }

/// Pairs the series, and says of which states where that was asked for.
std::vector<SeriesPair> pairs_beside(const Side& was, const Side& now, Beside beside, Comparison& comparison) {
    const auto before = states_of(was), after = states_of(now);
    if (beside == Beside::Same) {
        comparison.visits_apart = (before || after) && was.document.job.number != now.document.job.number;
        return paired(was.evaluation, now.evaluation);
    }
    // A visit of one state left the machine as it found it.
    const auto only = [](const Side& side) { return side.document.series.empty() ? std::string() : side.document.series[0].state; };
    comparison.state_was = before ? before->second : only(was);
    comparison.state_now = after ? after->first : only(now);
    return paired(was.evaluation, comparison.state_was, now.evaluation, comparison.state_now);
}

}  // namespace

bool ParameterChange::differs() const { return !same_value(was, now) || !same_value(expanded_was, expanded_now); }

bool Comparison::same() const {
    return only_was.empty() && only_now.empty() && changes.empty() && readings.empty() && verdicts.empty() &&
           std::ranges::none_of(parameters, &ParameterChange::differs);
}

Comparison compare(const Side& was, const Side& now, Beside beside) {
    Comparison comparison{.was = was.name, .now = now.name};
    const std::vector<SeriesPair> pairs = pairs_beside(was, now, beside, comparison);
    comparison.series_compared = pairs.size();
    name_series(pairs, was, now, comparison);
    comparison.changes = document_changes(was.document.bytes, now.document.bytes, comparison.paired_by_error);
    std::vector<std::string> same_readings;  // ids of series, whatever was set aside in them
    for (const SeriesPair& pair : pairs) {
        ReadingChanges readings = reading_changes(measured(was.document, pair.was->id), measured(now.document, pair.now->id));
        const bool same_runs = readings.same_runs();
        if (!readings.none()) comparison.readings.push_back(std::move(readings));
        if (same_runs) same_readings.push_back(pair.now->id);
        for (ParameterChange& change : result_changes(pair, was, now, same_runs)) comparison.parameters.push_back(std::move(change));
    }
    const std::vector<SquarenessPair> squarenesses = paired_squareness(pairs, was.evaluation, now.evaluation);
    for (const SquarenessPair& pair : squarenesses) comparison.parameters.push_back(squareness_change(pair, was, now, same_readings));
    add_verdicts(pairs, squarenesses, was, now, comparison);
    return comparison;
}

}  // namespace wayfolio::compare
