#include "evaluate/review/readings/positions_read.hpp"

#include "evaluate/numbers/least_squares.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

struct ReadingsOverTargets {
    std::vector<double> targets, readings;  ///< as written
};

ReadingsOverTargets readings_over_targets(const document::Series& series) {
    ReadingsOverTargets all;
    for (const auto& run : series.runs)
        for (std::size_t target = 0; target < run.deviations.size(); ++target) {
            if (!run.deviations[target]) continue;
            all.targets.push_back(series.targets[target].written);
            all.readings.push_back(run.deviations[target]->in(series.unit));
        }
    return all;
}

/// Whether each reading lies as near to its target, or to the target turned round, as a hundredth of the targets' range.
bool are_their_targets(const ReadingsOverTargets& all, double sign) {
    const auto [low, high] = std::minmax_element(all.targets.begin(), all.targets.end());
    const double near = 0.01 * (*high - *low);
    for (std::size_t i = 0; i < all.targets.size(); ++i)
        if (std::abs(sign * all.readings[i] - all.targets[i]) > near) return false;
    return true;
}

}  // namespace

std::optional<PositionsRead> positions_read(const document::Series& series, const SeriesEvaluation& evaluated) {
    constexpr std::size_t fewest_targets = 3;
    if (evaluated.source != Source::Runs || series.targets.size() < fewest_targets) return std::nullopt;
    const auto all = readings_over_targets(series);
    const auto line = linear_trend(all.targets, all.readings);
    if (!line) return std::nullopt;
    if (series.unit.dimension == series.position_unit.dimension && evaluated.kind != SeriesKind::AngleSteps) {
        const Position from(0, series.position_unit), to(1, series.position_unit);
        const double slope = Deviation(line->slope, series.unit) / (to - from);
        constexpr double least = 0.9, most = 1.1;
        if (std::abs(slope) >= least && std::abs(slope) <= most) return PositionsRead{slope, false};
    }
    const bool numbers = evaluated.kind == SeriesKind::Positioning && are_their_targets(all, line->slope < 0 ? -1 : 1);
    return numbers ? std::optional(PositionsRead{line->slope, true}) : std::nullopt;
}

}  // namespace wayfolio::evaluate
