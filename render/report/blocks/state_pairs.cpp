#include "report/blocks/state_pairs.hpp"

#include "evaluate/uncertainty/change_uncertainty.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

/// Series whose lines are both known can only be compared on the same line.
bool same_line(const Subject& subject, const SeriesView& first, const SeriesView& second) {
    const auto* of_first = document::measurement_line(subject.document, first.series);
    const auto* of_second = document::measurement_line(subject.document, second.series);
    return !of_first || !of_second || of_first == of_second;
}

/// "+1.3", "\u221258.3": a change always shows its sign.
std::string signed_number(const Shown& shown, const Deviation& value, int decimals) {
    return (value > value * 0.0 ? "+" : "") + number_of(shown, value, decimals);
}

StateDifference difference_of(const StatePair& pair, const Shown& shown, const PairNumbers& numbers) {
    constexpr double same_place = 1e-6;
    StateDifference made{.curve = {}, .U = numbers.U, .words = {}, .alternative = {}};
    const auto before = mean_curve_of(pair.first), after = mean_curve_of(pair.second);
    for (const auto& [position, value] : after) {
        const double at = position.in(shown.position);
        const auto same = std::ranges::find_if(
            before, [&](const auto& one) { return std::abs(one.first.in(shown.position) - at) <= same_place; });
        if (same != before.end()) made.curve.emplace_back(position, value - same->second);
    }
    if (made.curve.empty()) {
        made.words = Text("no place measured in both");
        made.alternative = pair.name + ": no place was measured in both states.";
        return made;
    }
    const auto largest = std::ranges::max_element(made.curve, {}, [](const auto& one) { return abs(one.second); });
    made.largest = static_cast<std::size_t>(largest - made.curve.begin());
    const bool within = made.U && abs(largest->second) <= *made.U;
    made.words = Text(signed_number(shown, largest->second, numbers.change.decimals));
    if (within) made.words.plain(", within\u00a0").symbol("U");
    made.alternative = pair.name + ", the later mean less the earlier: the largest change is " +
                       value_text(shown, largest->second, numbers.change.decimals) + " at " + position_text(shown, largest->first) +
                       (within ? ", within its U." : ".");
    return made;
}

/// Paired panels stay quiet: two means and the limit.
void quieten(DeviationPlot& plot) {
    plot.ticks.clear();
    plot.runs.clear();
    plot.excluded.clear();
    plot.brackets.clear();
    plot.bands = false;
    for (auto& target : plot.targets) {
        for (const auto approach : document::both_approaches) target.one_way[approach].s.reset();
        if (target.one_way.positive.mean && target.one_way.negative.mean) target.mean.reset();
    }
}

/// The verdict as it is now, and what it was.
Verdict verdict_with_before(Verdict now, const Verdict& before) {
    if (now.standing == Standing::NoLimit) return now;
    if (before.standing == Standing::NoLimit) return now;
    now.word.quiet(before.standing == now.standing ? "\u2002as before" : "\u2002was " + uncapitalised(before.word.words()));
    return now;
}

}  // namespace

std::vector<BothStates> pairs_of(const Subject& subject, const document::StatesCompared& states) {
    const auto& views = subject.views;
    std::vector<BothStates> pairs;
    for (const SeriesView& first : views) {
        if (first.series.state != states.first) continue;
        for (const SeriesView& second : views) {
            if (second.series.state != states.second || !(second.series.error == first.series.error)) continue;
            if (second.series.unit.dimension != first.series.unit.dimension || !same_line(subject, first, second)) continue;
            const std::string parameter = headline_parameter(second.series, second.evaluation);
            if (value_of_parameter(first.evaluation, parameter) && value_of_parameter(second.evaluation, parameter))
                pairs.push_back({first, second, parameter});
            break;
        }
    }
    return pairs;
}

Verdict verdict_in(const Subject& subject, const SeriesView& view, const std::string& parameter) {
    return verdict_of(find_decision(subject.evaluation, view.series.id, parameter), view.shown);
}

std::optional<Deviation> U_of_change(const Subject& subject, const evaluate::ParameterUncertainty* from,
                                     const evaluate::ParameterUncertainty* to) {
    return from && to ? std::optional(evaluate::uncertainty_of_change(subject.document, *from, *to).expanded) : std::nullopt;
}

std::optional<Deviation> U_of_change(const Subject& subject, const BothStates& pair) {
    return U_of_change(subject, evaluate::find_uncertainty(subject.evaluation, pair.first.series.id, pair.parameter),
                       evaluate::find_uncertainty(subject.evaluation, pair.second.series.id, pair.parameter));
}

PairNumbers numbers_of(const Subject& subject, const BothStates& pair) {
    const auto before = *value_of_parameter(pair.first.evaluation, pair.parameter),
               after = *value_of_parameter(pair.second.evaluation, pair.parameter);
    return {.before = before,
            .after = after,
            .U_before = expanded_of(subject, pair.first.series.id, pair.parameter),
            .U_after = expanded_of(subject, pair.second.series.id, pair.parameter),
            .U = U_of_change(subject, pair),
            .change = printed_change(pair.second.shown, before, after,
                                     std::max(parameter_decimals(subject, pair.first, pair.parameter),
                                              parameter_decimals(subject, pair.second, pair.parameter)))};
}

Text limit_text(const Shown& shown, const evaluate::Decision* decision) {
    return decision ? Text(limit_number(shown, decision->limit)) : Text(no_value);
}

StatePair drawn_pair(const Subject& subject, const BothStates& pair) {
    const Shown& shown = pair.second.shown;
    StatePair made{.name = quantity_title(subject.document, pair.second.series.error) + " / " + std::string(shown.unit.symbol),
                   .first = judged_plot(subject, pair.first),
                   .second = judged_plot(subject, pair.second),
                   .difference = {},
                   .verdict = verdict_with_before(verdict_in(subject, pair.second, pair.parameter),
                                                  verdict_in(subject, pair.first, pair.parameter))};
    const PairNumbers numbers = numbers_of(subject, pair);
    made.difference = difference_of(made, shown, numbers);
    quieten(made.first);
    quieten(made.second);
    const int decimals = numbers.change.decimals;
    const auto line = [&](const std::string& name, const Deviation& value, const std::optional<Deviation>& U) {
        made.rows.emplace_back(Text(name), Text(result_text(shown, value, U, decimals)));
    };
    line(state_words(pair.first.series.state), numbers.before, numbers.U_before);
    line(state_words(pair.second.series.state), numbers.after, numbers.U_after);
    const std::string change = units::number(numbers.change.value, decimals, shown.style);
    made.rows.emplace_back(Text("change"),
                           Text(numbers.U ? change + "\u00a0±\u202f" + with_unit(number_of(shown, *numbers.U, decimals), shown.unit.symbol)
                                          : with_unit(change, shown.unit.symbol)));
    made.rows.emplace_back(Text("limit"), limit_text(shown, find_decision(subject.evaluation, pair.second.series.id, pair.parameter)));
    return made;
}

}  // namespace wayfolio::report
