#include "evaluate/series/obstacles.hpp"

#include "units/number_text.hpp"

#include <fmt/format.h>
#include <algorithm>

namespace wayfolio::evaluate {
namespace {

bool single(const TargetEvaluation& target, Approach approach) {
    return target.one_way[approach].mean && !target.one_way[approach].s;
}

bool any_mean(Targets targets, Approach approach) {
    return std::any_of(targets.begin(), targets.end(), [&](const auto& target) { return target.one_way[approach].mean.has_value(); });
}

/// No target has more than one reading in this direction.
bool only_singles(Targets targets, Approach approach) {
    return std::none_of(targets.begin(), targets.end(),
                        [&](const auto& target) { return target.one_way[approach].s.has_value(); });
}

}  // namespace

Obstacle no_means(Targets targets, Approach approach) {
    if (any_mean(targets, approach)) return std::nullopt;
    return NotEvaluated{fmt::format("no readings in the {} approach", word(approach))};
}

Obstacle not_both_directions(Targets targets) {
    const bool positive = any_mean(targets, Approach::Positive), negative = any_mean(targets, Approach::Negative);
    if (positive && negative) return std::nullopt;
    if (!positive && !negative) return NotEvaluated{"no readings"};
    return NotEvaluated{fmt::format("readings in the {} approach only", positive ? "positive" : "negative")};
}

Obstacle no_shared_target(Targets targets) {
    if (auto obstacle = not_both_directions(targets)) return obstacle;
    const bool shared = std::any_of(targets.begin(), targets.end(), [](const auto& target) { return target.mean.has_value(); });
    if (shared) return std::nullopt;
    return NotEvaluated{"no target position has readings in both approaches"};
}

Obstacle no_spread(Targets targets, Approach approach, const PositionUnit& unit) {
    if (auto obstacle = no_means(targets, approach)) return obstacle;
    const auto first = std::find_if(targets.begin(), targets.end(), [&](const auto& target) { return single(target, approach); });
    if (first == targets.end()) return std::nullopt;
    if (only_singles(targets, approach))
        return NotEvaluated{fmt::format("one run in the {} approach; at least two are needed", word(approach))};
    return NotEvaluated{fmt::format("one reading only in the {} approach at {} {}; every target position needs at least two",
                                    word(approach), units::shortest(first->written), unit.symbol)};
}

Obstacle no_spread_both(Targets targets, const PositionUnit& unit) {
    if (auto obstacle = not_both_directions(targets)) return obstacle;
    if (only_singles(targets, Approach::Positive) && only_singles(targets, Approach::Negative))
        return NotEvaluated{"one run in each approach; at least two are needed"};
    if (auto obstacle = no_spread(targets, Approach::Positive, unit)) return obstacle;
    return no_spread(targets, Approach::Negative, unit);
}

}  // namespace wayfolio::evaluate
