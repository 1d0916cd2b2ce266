#include "compare/comparison.hpp"

#include <algorithm>

namespace wayfolio::compare {

namespace {

using evaluate::SeriesEvaluation;
using Left = std::vector<const SeriesEvaluation*>;

Left all_of(const evaluate::Evaluation& evaluation) {
    Left left;
    for (const SeriesEvaluation& series : evaluation.series) left.push_back(&series);
    return left;
}

Left of_state(const evaluate::Evaluation& evaluation, const std::string& state) {
    Left left = all_of(evaluation);
    std::erase_if(left, [&](const SeriesEvaluation* series) { return !state.empty() && !series->state.empty() && series->state != state; });
    return left;
}

bool same_error(const SeriesEvaluation& a, const SeriesEvaluation& b) { return a.error == b.error && a.kind == b.kind; }

bool same_id(const SeriesEvaluation& a, const SeriesEvaluation& b) { return same_error(a, b) && a.id == b.id; }

bool same_state(const SeriesEvaluation& a, const SeriesEvaluation& b) { return same_error(a, b) && a.state == b.state; }

/// Takes the pairs that `alike` finds without a choice out of what is left.
template <class Alike>
void take(Left& was, Left& now, const Alike& alike, std::vector<SeriesPair>& pairs) {
    const Left before = was, after = now;
    const auto only = [&](const Left& among, const SeriesEvaluation& series) -> const SeriesEvaluation* {
        const auto is_alike = [&](const SeriesEvaluation* other) { return alike(*other, series); };
        if (std::ranges::count_if(among, is_alike) != 1) return nullptr;
        return *std::ranges::find_if(among, is_alike);
    };
    for (const SeriesEvaluation* series : after) {
        const SeriesEvaluation* other = only(before, *series);
        if (!other || only(after, *other) != series) continue;
        pairs.push_back({other, series});
        std::erase(was, other);
        std::erase(now, series);
    }
}

}  // namespace

std::vector<SeriesPair> paired(const evaluate::Evaluation& was, const std::string& state_was, const evaluate::Evaluation& now,
                               const std::string& state_now) {
    Left old_left = of_state(was, state_was), new_left = of_state(now, state_now);
    std::vector<SeriesPair> pairs;
    take(old_left, new_left, same_id, pairs);
    take(old_left, new_left, same_error, pairs);
    std::ranges::sort(pairs, {}, &SeriesPair::now);
    return pairs;
}

std::vector<SeriesPair> paired(const evaluate::Evaluation& was, const evaluate::Evaluation& now) {
    Left old_left = all_of(was), new_left = all_of(now);
    std::vector<SeriesPair> pairs;
    take(old_left, new_left, same_id, pairs);
    take(old_left, new_left, same_state, pairs);
    take(old_left, new_left, same_error, pairs);
    std::ranges::sort(pairs, {}, &SeriesPair::now);  // in the order of the new document, where the series stand side by side
    return pairs;
}

}  // namespace wayfolio::compare
