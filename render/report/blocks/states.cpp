#include "report/blocks/blocks.hpp"

#include "report/blocks/state_pairs.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace wayfolio::report {
namespace {

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

ChangeRow change_row(const Subject& subject, const BothStates& pair) {
    const Shown& shown = pair.second.shown;
    ChangeRow row = row_of(shown, numbers_of(subject, pair), verdict_in(subject, pair.first, pair.parameter),
                           verdict_in(subject, pair.second, pair.parameter));
    const std::string symbol = parameter_symbol(pair.parameter);
    row.name = symbol.empty() ? Text(uncapitalised(parameter_words(pair.parameter, pair.second.evaluation.standard)) + " of ")
                              : Text().symbol(symbol).plain(" of ");
    row.name.plain(pair.second.series.error.text() + " / " + std::string(shown.unit.symbol));
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

/// The results of a pair of series that have no panel: the parameters of positioning, and what else has a limit.
std::vector<BothStates> without_panel(const Subject& subject, const BothStates& pair) {
    std::vector<BothStates> others;
    for (const evaluate::Parameter& parameter : pair.second.evaluation.parameters) {
        const std::string& name = parameter.name;
        if (name == pair.parameter || !value_of_parameter(pair.first.evaluation, name) ||
            !value_of_parameter(pair.second.evaluation, name))
            continue;
        const auto before = value_of_parameter(pair.first.evaluation, name), after = value_of_parameter(pair.second.evaluation, name);
        if (before->dimension() != pair.second.shown.unit.dimension || after->dimension() != pair.second.shown.unit.dimension) continue;
        const bool positioning = pair.second.evaluation.kind == evaluate::SeriesKind::Positioning &&
                                 !parameter_symbol(name).empty() && !direction_of(name) && name != "B_mean";
        if (positioning || find_decision(subject.evaluation, pair.second.series.id, name))
            others.push_back({pair.first, pair.second, name});
    }
    return others;
}

/// "Positioning error fell from 71.8 to 26.9 µm"
std::string moved_words(const Subject& subject, const BothStates& pair) {
    const PairNumbers numbers = numbers_of(subject, pair);
    const Deviation &before = numbers.before, &after = numbers.after;
    const Shown& shown = pair.second.shown;
    const std::string verb = after < before ? " fell from " : after > before ? " rose from " : " stayed at ";
    const document::ErrorSymbol& error = pair.second.series.error;
    std::string name = quantity_name(subject.document, error);
    if (error.kind() != document::ErrorKind::Straightness) name += " error";
    const std::string first = number_of(shown, before, numbers.change.decimals);
    if (after == before) return name + verb + with_unit(first, shown.unit.symbol);
    return name + verb + first + " to " + value_text(shown, after, numbers.change.decimals);
}

/// What the page leads with: the first quantity, and of the others the one that changed most, in uncertainties of the change.
Text states_lead(const Subject& subject, const std::vector<BothStates>& pairs) {
    std::string words = moved_words(subject, pairs.front());
    const BothStates* second = nullptr;
    double most = 1;
    for (const BothStates& pair : pairs) {
        const PairNumbers numbers = numbers_of(subject, pair);
        if (&pair == &pairs.front() || !numbers.U) continue;
        const double ratio = abs(numbers.after - numbers.before).in(pair.second.shown.unit) / numbers.U->in(pair.second.shown.unit);
        if (!(ratio > most)) continue;
        most = ratio;
        second = &pair;
    }
    if (second) words += ", " + uncapitalised(moved_words(subject, *second));
    return Text(words + ".");
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
                    .anchor = states_anchor,
                    .lead = states_lead(subject, pairs)};
    const auto titled = [](const std::string& state, const std::string& date) {
        return capitalised(state_words(state)) + (date.empty() ? "" : ", " + date);
    };
    made.first_title = titled(compared->first, state_date(pairs[0].first));
    made.second_title = titled(compared->second, state_date(pairs[0].second));
    made.difference_title = capitalised(state_words(compared->second)) + " minus " + state_words(compared->first);
    made.first_head = state_words(compared->first);
    made.second_head = state_words(compared->second);
    for (const BothStates& pair : pairs) made.pairs.push_back(drawn_pair(subject, pair));
    for (const BothStates& pair : pairs)
        for (const BothStates& other : without_panel(subject, pair)) made.changes.push_back(change_row(subject, other));
    for (const auto& [first, second] : squareness_pairs(subject, *compared)) made.changes.push_back(change_row(subject, *first, *second));
    const bool any_U = std::ranges::any_of(pairs, [&](const BothStates& pair) { return U_of_change(subject, pair).has_value(); }) ||
                       std::ranges::any_of(made.changes, [](const ChangeRow& row) { return row.U.words() != no_value; });
    made.caption = marked("One scale in each row. Solid: positive, dashed: negative approach; the difference is of their mean." +
                          std::string(any_U ? " Grey: ± *U* of the change of the value at its right." : ""));
    made.opening.body = summary_of(subject, pairs);
    if (any_U)
        made.notes.push_back(marked(
            "*U* of change: *k* times the root of the sum of squares of both standard uncertainties; the two series are taken as "
            "independent, which is the larger value."));
    made.sections = superseded_numbers(subject);
    return made;
}

}  // namespace wayfolio::report
