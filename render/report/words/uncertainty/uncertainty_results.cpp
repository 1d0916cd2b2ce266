#include "report/words/uncertainty/uncertainty_results.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::report {
namespace {

using evaluate::BudgetLine;
using evaluate::Decision;
using evaluate::ParameterUncertainty;

const Decision* decision_on(const Subject& subject, const ParameterUncertainty& entry) {
    const auto found = std::ranges::find_if(subject.evaluation.decisions, [&](const Decision& decision) {
        return decision.series == entry.series && decision.parameter == entry.parameter && decision.axes == entry.axes &&
               decision.length_mm == entry.length_mm;
    });
    return found == subject.evaluation.decisions.end() ? nullptr : &*found;
}

/// What has a limit, what speaks for its quantity, and of positioning all that both directions set. The rest is detail of these; the slope
/// of a line is a result in another dimension than its series.
bool is_shown(const SeriesView& view, const ParameterUncertainty& entry, const Decision* decision) {
    if (entry.axes || entry.unit.dimension != view.shown.unit.dimension) return false;
    if (decision || entry.parameter == headline_parameter(view.series, view.evaluation)) return true;
    return view.evaluation.kind == evaluate::SeriesKind::Positioning && !direction_of(entry.parameter) &&
           !parameter_symbol(entry.parameter).empty();
}

void add_squareness(std::vector<UncertainResult>& results, const Subject& subject, const std::vector<SeriesView>& views) {
    for (const auto* squareness : answering_squareness(subject, views)) {
        const auto* entry = evaluate::find_uncertainty(subject.evaluation, *squareness);
        if (!entry) continue;
        const auto* value = evaluate::value_of(squareness->value);
        results.push_back({entry, nullptr, decision_on(subject, *entry), value ? std::optional(Deviation(*value)) : std::nullopt,
                           squareness_shown(subject), true});
    }
}

}  // namespace

int UncertainResult::decimals() const {
    return decision && decision->value ? decided_decimals(*decision, shown) : result_decimals(shown, value, entry->expanded);
}

std::vector<UncertainResult> uncertain_results(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<UncertainResult> results;
    for (const SeriesView& view : views)
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty) {
            const auto* decision = decision_on(subject, entry);
            if (entry.series != view.series.id || !is_shown(view, entry, decision)) continue;
            const auto value = decision && decision->value ? decision->value
                               : entry.length_mm           ? std::nullopt
                                                           : known_value(view.evaluation, entry.parameter);
            results.push_back({&entry, &view, decision, value, view.shown,
                               entry.parameter == headline_parameter(view.series, view.evaluation)});
        }
    add_squareness(results, subject, views);
    const auto is_positioning = [](const SeriesView& view) { return view.evaluation.kind == evaluate::SeriesKind::Positioning; };
    const bool several = std::ranges::count_if(views, is_positioning) > 1;
    for (UncertainResult& result : results) result.one_of_several = several;
    std::ranges::stable_partition(results, [](const UncertainResult& one) { return one.decision != nullptr; });
    return results;
}

ColumnHead head_of(const UncertainResult& result) {
    if (!result.view) return {Text("square-"), Text("ness")};
    const std::string symbol = parameter_symbol(result.entry->parameter);
    if (!symbol.empty() && !result.one_of_several && !direction_of(result.entry->parameter) && result.entry->parameter == symbol &&
        result.view->evaluation.kind == evaluate::SeriesKind::Positioning)
        return {{}, Text().symbol(symbol)};
    const Text error(result.view->series.error.text());
    if (result.entry->length_mm) return {error, Text(length_text(result.shown, *result.entry->length_mm))};
    Text below = Text().symbol(symbol);
    if (const auto way = direction_of(result.entry->parameter)) below.plain(*way == document::Approach::Positive ? " pos." : " neg.");
    if (result.entry->parameter.ends_with("_mean")) below.plain(symbol.empty() ? "mean" : " mean");
    return below.words().empty() ? ColumnHead{{}, error} : ColumnHead{error, below};
}

Text sentence_name(const UncertainResult& result) {
    if (!result.view) return Text("the squareness of " + (*result.entry->axes)[0] + " and " + (*result.entry->axes)[1]);
    const std::string symbol = parameter_symbol(result.entry->parameter), error = result.view->series.error.text();
    Text name = symbol.empty() ? Text(error) : Text().symbol(symbol);
    if (result.entry->parameter.ends_with("_mean")) name.plain(symbol.empty() ? " of the mean" : " mean");
    if (const auto way = direction_of(result.entry->parameter)) name.plain(" " + std::string(word(*way)));
    if (result.entry->length_mm) name.plain(" over " + length_text(result.shown, *result.entry->length_mm));
    return symbol.empty() || !result.one_of_several ? name : name.plain(" (" + error + ")");
}

PartOf part_of(const BudgetLine& line) {
    using document::Influence;
    if (!line.influence) return PartOf::Listed;
    switch (*line.influence) {
        case Influence::Instrument:
        case Influence::Square: return PartOf::Instrument;
        case Influence::ExpansionCoefficient:
        case Influence::ExpansionCorrection: return PartOf::Expansion;
        case Influence::Drift: return PartOf::Drift;
        case Influence::Scatter:
        case Influence::Slope: return PartOf::Scatter;
        case Influence::AirCorrection:
        case Influence::Cosine:
        case Influence::DeadPath: break;
    }
    return PartOf::Listed;
}

std::string part_words(PartOf part) {
    switch (part) {
        case PartOf::Instrument: return "the instrument";
        case PartOf::Expansion: return "expansion";
        case PartOf::Listed: return "input quantities of the document";
        case PartOf::Drift: return "drift at rest";
        case PartOf::Scatter: return "random variation of the readings";
        case PartOf::KnownBias: return "known bias";
    }
    return {};
}

std::vector<UncertaintyPart> parts_of(const ParameterUncertainty& entry) {
    if (entry.contributors.empty() || entry.raised_to_capability || !(entry.expanded > entry.expanded * 0.0)) return {};
    std::map<PartOf, double> shares;
    const double random = entry.without_known_bias().in(entry.unit) / entry.expanded.in(entry.unit);
    for (const BudgetLine& line : entry.contributors) shares[part_of(line)] += line.share * random;
    if (entry.known_bias) shares[PartOf::KnownBias] += 1 - random;
    std::vector<UncertaintyPart> parts;
    for (const auto& [of, share] : shares)
        if (share > 0) parts.push_back({of, share});
    return parts;
}

}  // namespace wayfolio::report
