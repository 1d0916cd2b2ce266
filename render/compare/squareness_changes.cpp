#include "compare/changes.hpp"


#include <algorithm>

namespace wayfolio::compare {

namespace {

using evaluate::Evaluation;
using evaluate::SquarenessEvaluation;
using Squarenesses = std::vector<const SquarenessEvaluation*>;

Squarenesses squarenesses_of(const Evaluation& evaluation) {
    Squarenesses all;
    for (const SquarenessEvaluation& one : evaluation.squareness) all.push_back(&one);
    return all;
}

/// Whether the series `was` of the old document stands beside the series `now` of the new.
bool counterparts(const std::vector<SeriesPair>& series, const std::string& was, const std::string& now) {
    return std::ranges::any_of(series, [&](const SeriesPair& pair) { return pair.was->id == was && pair.now->id == now; });
}

bool of_counterparts(const std::vector<SeriesPair>& series, const SquarenessEvaluation& was, const SquarenessEvaluation& now) {
    return was.axes == now.axes && counterparts(series, was.series[0], now.series[0]) && counterparts(series, was.series[1], now.series[1]);
}

template <class Alike>
void take_pairs(Squarenesses& was, Squarenesses& now, const Alike& alike, std::vector<SquarenessPair>& pairs) {
    const Squarenesses before = was, after = now;
    for (const SquarenessEvaluation* one : after) {
        const auto like_one = [&](const SquarenessEvaluation* other) { return alike(*other, *one); };
        if (std::ranges::count_if(before, like_one) != 1) continue;
        const SquarenessEvaluation* other = *std::ranges::find_if(before, like_one);
        if (std::ranges::count_if(after, [&](const SquarenessEvaluation* again) { return alike(*other, *again); }) != 1) continue;
        pairs.push_back({other, one, {}});
        std::erase(was, other);
        std::erase(now, one);
    }
}

/// What only one side asks for, of readings that both have.
void take_single(const Squarenesses& left, const std::vector<SeriesPair>& series, const evaluate::SeriesEvaluation* SeriesPair::*side,
                 std::vector<SquarenessPair>& pairs) {
    const auto has_counterpart = [&](const std::string& id) {
        return std::ranges::any_of(series, [&](const SeriesPair& pair) { return (pair.*side)->id == id; });
    };
    for (const SquarenessEvaluation* one : left)
        if (has_counterpart(one->series[0]) && has_counterpart(one->series[1]))
            pairs.push_back(side == &SeriesPair::was ? SquarenessPair{one, nullptr, {}} : SquarenessPair{nullptr, one, {}});
}

const SquarenessEvaluation& either(const SquarenessPair& pair) { return pair.now ? *pair.now : *pair.was; }

Found squareness_found(const SquarenessEvaluation* squareness, const Evaluation& evaluation) {
    if (!squareness) return {.reason = "no such squareness on this side"};
    Found found{.reason = {}};
    if (const auto* value = evaluate::value_of(squareness->value)) found.value = Deviation(*value);
    else found.reason = std::get<evaluate::NotEvaluated>(squareness->value).reason;
    found.uncertainty = evaluate::find_uncertainty(evaluation, *squareness);
    return found;
}

}  // namespace

std::vector<SquarenessPair> paired_squareness(const std::vector<SeriesPair>& series, const Evaluation& was, const Evaluation& now) {
    Squarenesses old_left = squarenesses_of(was), new_left = squarenesses_of(now);
    std::vector<SquarenessPair> pairs;
    take_pairs(old_left, new_left, [&](const auto& a, const auto& b) { return of_counterparts(series, a, b); }, pairs);
    take_pairs(old_left, new_left, [](const auto& a, const auto& b) { return a.axes == b.axes; }, pairs);
    take_single(new_left, series, &SeriesPair::now, pairs);
    take_single(old_left, series, &SeriesPair::was, pairs);
    for (SquarenessPair& pair : pairs) {
        const SquarenessEvaluation& one = either(pair);
        pair.parameter = "squareness of " + one.axes[0] + " and " + one.axes[1];
        const bool several = std::ranges::count_if(pairs, [&](const SquarenessPair& other) { return either(other).axes == one.axes; }) > 1;
        if (several) pair.parameter += " from " + one.series[0] + " and " + one.series[1];
    }
    return pairs;
}

ParameterChange squareness_change(const SquarenessPair& pair, const Side& was, const Side& now, const std::vector<std::string>& same_runs) {
    const SquarenessEvaluation& one = either(pair);
    const Side& side = pair.now ? now : was;
    const auto* first = evaluate::find_series(side.evaluation, one.series[0]);
    ParameterChange change{.series = {},
                           .error = one.symbol,
                           .state = first ? first->state : "",
                           .parameter = pair.parameter,
                           .name = "squareness",
                           .axes = one.axes,
                           .from = one.series,
                           .unit = units::microradian};
    const bool both_same = pair.was && std::ranges::all_of(one.series, [&](const std::string& id) {
                               return std::ranges::find(same_runs, id) != same_runs.end();
                           });
    weigh(change, squareness_found(pair.was, was.evaluation), squareness_found(pair.now, now.evaluation), both_same,
          now.document);
    return change;
}

}  // namespace wayfolio::compare
