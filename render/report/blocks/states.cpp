#include "report/blocks/blocks.hpp"

#include "document/states.hpp"
#include "evaluate/uncertainty/change_uncertainty.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace wayfolio::report {
namespace {

struct BothStates {
    SeriesView first, second;
    std::string parameter;
};

std::vector<BothStates> pairs_of(const Subject& subject, const document::StatesCompared& states) {
    const auto& views = subject.views;
    std::vector<BothStates> pairs;
    for (const SeriesView& first : views) {
        if (first.series.state != states.first) continue;
        for (const SeriesView& second : views) {
            if (second.series.state != states.second || !(second.series.error == first.series.error)) continue;
            if (second.series.unit.dimension != first.series.unit.dimension) continue;
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

/// The two verdicts in words: "Outside, now inside".
Text change_words(const Verdict& first, const Verdict& second) {
    if (second.standing == Standing::NoLimit) return second.word;
    const std::string now = second.word.words();
    if (first.word.words() == now) return second.word;
    const Text words(first.word.words() + ", now " + uncapitalised(now));
    return second.standing == Standing::Inside || second.standing == Standing::InsideByLess ? words : emphasised(words);
}

std::string state_date(const SeriesView& view) {
    for (const auto& run : view.series.runs) {
        if (!run.started.empty()) return date_part(run.started);
    }
    return "";
}

std::optional<Deviation> U_of_change(const Subject& subject, const evaluate::ParameterUncertainty* from,
                                     const evaluate::ParameterUncertainty* to) {
    return from && to ? std::optional(evaluate::uncertainty_of_change(subject.document, *from, *to).expanded) : std::nullopt;
}

std::optional<Deviation> U_of_change(const Subject& subject, const BothStates& pair) {
    return U_of_change(subject, evaluate::find_uncertainty(subject.evaluation, pair.first.series.id, pair.parameter),
                       evaluate::find_uncertainty(subject.evaluation, pair.second.series.id, pair.parameter));
}

using evaluate::SquarenessEvaluation;

/// The squareness of the same axes from series of either state.
std::vector<std::pair<const SquarenessEvaluation*, const SquarenessEvaluation*>> squareness_pairs(const Subject& subject,
                                                                                                  const document::StatesCompared& states) {
    const auto in_state = [&](const SquarenessEvaluation& squareness, const std::string& state) {
        return evaluate::value_of(squareness.value) && std::ranges::all_of(squareness.series, [&](const std::string& id) {
                   const auto* series = document::find_series(subject.document, id);
                   return series && series->state == state;
               });
    };
    std::vector<std::pair<const SquarenessEvaluation*, const SquarenessEvaluation*>> pairs;
    for (const SquarenessEvaluation& second : subject.evaluation.squareness) {
        if (!in_state(second, states.second)) continue;
        const auto first = std::ranges::find_if(subject.evaluation.squareness, [&](const SquarenessEvaluation& one) {
            return one.axes == second.axes && in_state(one, states.first);
        });
        if (first != subject.evaluation.squareness.end()) pairs.emplace_back(&*first, &second);
    }
    return pairs;
}

/// Both values of a pair and their uncertainties, to the one place that they share wherever they stand.
struct PairNumbers {
    Deviation before, after;
    std::optional<Deviation> U_before, U_after, U;
    units::PrintedDifference change;
};

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

ChangeRow row_of(const Shown& shown, const PairNumbers& numbers, const Verdict& before, const Verdict& after) {
    const int decimals = numbers.change.decimals;
    ChangeRow row;
    row.first = number_of(shown, numbers.before, decimals);
    row.second = Text().strong(number_of(shown, numbers.after, decimals));
    row.change = units::number(numbers.change.value, decimals, shown.style);
    row.U = numbers.U ? number_of(shown, *numbers.U, decimals) : no_value;
    row.first_verdict = before;
    row.second_verdict = after;
    row.words = change_words(before, after);
    return row;
}

Text limit_text(const Shown& shown, const evaluate::Decision* decision) {
    return decision ? Text(limit_number(shown, decision->limit)) : Text(no_value);
}

ChangeRow change_row(const Subject& subject, const BothStates& pair) {
    const Shown& shown = pair.second.shown;
    ChangeRow row = row_of(shown, numbers_of(subject, pair), verdict_in(subject, pair.first, pair.parameter),
                           verdict_in(subject, pair.second, pair.parameter));
    row.name = Text(quantity_title(subject.document, pair.second.series.error) + " / " + std::string(shown.unit.symbol));
    row.limit = limit_text(shown, find_decision(subject.evaluation, pair.second.series.id, pair.parameter));
    return row;
}

ChangeRow change_row(const Subject& subject, const SquarenessEvaluation& first, const SquarenessEvaluation& second) {
    const Shown shown = squareness_shown(subject);
    const Deviation before(*evaluate::value_of(first.value)), after(*evaluate::value_of(second.value));
    const auto U_before = expanded_of(subject, first), U_after = expanded_of(subject, second);
    const PairNumbers numbers{.before = before,
                              .after = after,
                              .U_before = U_before,
                              .U_after = U_after,
                              .U = U_of_change(subject, evaluate::find_uncertainty(subject.evaluation, first),
                                               evaluate::find_uncertainty(subject.evaluation, second)),
                              .change = printed_change(shown, before, after, row_decimals(shown, {before, after}, {U_before, U_after}))};
    ChangeRow row = row_of(shown, numbers, verdict_of(find_decision(subject.evaluation, first), shown),
                           verdict_of(find_decision(subject.evaluation, second), shown));
    row.name = Text(squareness_name(second.axes) + " / " + std::string(shown.unit.symbol));
    row.limit = limit_text(shown, find_decision(subject.evaluation, second));
    return row;
}

StatePair drawn_pair(const Subject& subject, const BothStates& pair) {
    StatePair made{.name = quantity_title(subject.document, pair.second.series.error) + " / " + std::string(pair.second.shown.unit.symbol),
                   .first = judged_plot(subject, pair.first),
                   .second = judged_plot(subject, pair.second),
                   .verdict = verdict_in(subject, pair.second, pair.parameter)};
    // Paired panels stay quiet: the headline's bracket with its number, no ticks, runs or excluded readings.
    for (DeviationPlot* plot : {&made.first, &made.second}) {
        plot->ticks.clear();
        plot->runs.clear();
        plot->excluded.clear();
        if (!plot->brackets.empty()) plot->brackets = {plot->brackets.back()};
    }
    const PairNumbers numbers = numbers_of(subject, pair);
    const auto line = [&](const SeriesView& view, const Deviation& value, const std::optional<Deviation>& U) {
        made.rows.emplace_back(Text(state_words(view.series.state)),
                               Text(result_text(pair.second.shown, value, U, numbers.change.decimals)));
    };
    line(pair.first, numbers.before, numbers.U_before);
    line(pair.second, numbers.after, numbers.U_after);
    made.first_number = number_of(pair.second.shown, numbers.before, numbers.change.decimals);
    made.second_number = number_of(pair.second.shown, numbers.after, numbers.change.decimals);
    const auto* decision = find_decision(subject.evaluation, pair.second.series.id, pair.parameter);
    made.rows.emplace_back(Text("limit"), limit_text(pair.second.shown, decision));
    return made;
}

Text states_lead(const Subject& subject, const std::vector<BothStates>& pairs) {
    const BothStates& lead = pairs.front();
    const PairNumbers numbers = numbers_of(subject, lead);
    const Deviation &before = numbers.before, &after = numbers.after;
    const Shown& shown = lead.second.shown;
    const std::string verb = after < before ? " fell from " : after > before ? " rose from " : " stayed at ";
    const document::ErrorSymbol& error = lead.second.series.error;
    std::string name = quantity_name(subject.document, error);
    if (error.kind() != document::ErrorKind::Straightness) name += " error";
    Text text(name + verb + number_of(shown, before, numbers.change.decimals));
    if (after != before) text.plain(" to " + value_text(shown, after, numbers.change.decimals));
    return text.plain(".");
}

/// "X: six of six quantities became smaller; as left, two inside, three undecided, one outside."
std::string axis_line(const Subject& subject, const std::vector<BothStates>& pairs, const std::string& axis) {
    std::size_t all = 0, smaller = 0, sure = 0;
    std::map<Standing, std::size_t, std::greater<>> counted;  // inside first
    for (const BothStates& pair : pairs) {
        if (pair.second.series.error.axis != axis) continue;
        ++all;
        const auto before = *value_of_parameter(pair.first.evaluation, pair.parameter),
                   after = *value_of_parameter(pair.second.evaluation, pair.parameter);
        const auto U = U_of_change(subject, pair);
        smaller += after < before;
        sure += after < before && (!U || *U < before - after);
        ++counted[verdict_in(subject, pair.second, pair.parameter).standing];
    }
    counted.erase(Standing::NoLimit);
    std::vector<std::string> verdicts;
    for (const auto& [standing, count] : counted)
        verdicts.push_back(count_word(count) + " " + uncapitalised(std::string(evaluate::word(standing))));
    std::string line = axis + ": " + (smaller == 0 ? std::string("none") : count_word(smaller)) + " of " + count_word(all) +
                       (all == 1 ? " quantity" : " quantities") + " became smaller";
    if (smaller > 0 && sure < smaller)
        line += sure == 0 ? ", none by more than the uncertainty of the change"
                          : ", " + count_word(sure) + " of them by more than the uncertainty of the change";
    if (!verdicts.empty()) line += "; " + state_words(pairs[0].second.series.state) + ", " + listed(verdicts);
    return line + ".";
}

/// One line for each axis, in the document's order.
Text summary_of(const Subject& subject, const std::vector<BothStates>& pairs) {
    std::vector<std::string> axes;
    Text text;
    for (const BothStates& pair : pairs) {
        const std::string& axis = pair.second.series.error.axis;
        if (std::ranges::find(axes, axis) != axes.end()) continue;
        axes.push_back(axis);
        text.plain((text.empty() ? "" : "\n") + axis_line(subject, pairs, axis));
    }
    return text;
}

}  // namespace

std::optional<States> states(const Subject& subject) {
    const auto compared = states_compared(subject.document);
    if (!compared) return std::nullopt;
    std::vector<BothStates> pairs = pairs_of(subject, *compared);
    if (pairs.empty()) return std::nullopt;
    States made;
    made.opening = {.label = capitalised(state_words(compared->first)) + " against " + state_words(compared->second),
                    .anchor = "states",
                    .lead = states_lead(subject, pairs)};
    const auto titled = [](const std::string& state, const std::string& date) {
        return capitalised(state_words(state)) + (date.empty() ? "" : ", " + date);
    };
    made.first_title = titled(compared->first, state_date(pairs[0].first));
    made.second_title = titled(compared->second, state_date(pairs[0].second));
    made.caption = Text("Each pair on one scale.");
    made.first_head = state_words(compared->first);
    made.second_head = state_words(compared->second);
    for (const BothStates& pair : pairs) made.changes.push_back(change_row(subject, pair));
    for (const auto& [first, second] : squareness_pairs(subject, *compared)) made.changes.push_back(change_row(subject, *first, *second));
    const bool any_U = std::ranges::any_of(made.changes, [](const ChangeRow& row) { return row.U.words() != no_value; });
    std::vector<const BothStates*> drawn;
    for (const BothStates& pair : pairs) drawn.push_back(&pair);
    const auto badness = [&](const BothStates* p) {
        return severity(find_decision(subject.evaluation, p->second.series.id, p->parameter));
    };
    std::ranges::stable_sort(drawn.begin() + 1, drawn.end(), {}, badness);
    constexpr std::size_t most_drawn = 3;
    if (drawn.size() > most_drawn) drawn.resize(most_drawn);
    for (const BothStates* pair : drawn) made.pairs.push_back(drawn_pair(subject, *pair));
    made.opening.body = summary_of(subject, pairs);
    if (pairs.size() > drawn.size())
        made.opening.body.plain("\nDrawn are the first quantity and those nearest to or past their limits; the table holds all of them.");
    if (any_U)
        made.notes.push_back(marked(
            "*U* of change: *k* times the root of the sum of squares of both standard uncertainties; the two series are taken as "
            "independent, which is the larger value."));
    return made;
}

}  // namespace wayfolio::report
