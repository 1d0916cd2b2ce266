#include "compare/comparison.hpp"

#include "compare/changes.hpp"
#include "evaluate/written/words.hpp"

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

using Verdicts = std::map<std::pair<std::string, std::string>, std::string>;

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
        verdicts.emplace(std::pair(series, parameter), evaluate::word(decision.outcome));
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
    const auto word = [](const Verdicts& verdicts, const auto& key) {
        const auto found = verdicts.find(key);
        return found == verdicts.end() ? std::string() : found->second;
    };
    Verdicts all = after;
    all.insert(before.begin(), before.end());
    for (const auto& [key, outcome] : all)
        if (word(before, key) != word(after, key))
            comparison.verdicts.push_back({key.first, key.second, word(before, key), word(after, key)});
}

}  // namespace

bool ParameterChange::differs() const { return !same_value(was, now) || !same_value(expanded_was, expanded_now); }

bool Comparison::same() const {
    return only_was.empty() && only_now.empty() && changes.empty() && readings.empty() && verdicts.empty() &&
           std::ranges::none_of(parameters, &ParameterChange::differs);
}

Comparison compare(const Side& was, const Side& now) {
    const std::vector<SeriesPair> pairs = paired(was.evaluation, now.evaluation);
    Comparison comparison{.was = was.name, .now = now.name, .series_compared = pairs.size()};
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
