#pragma once
#include "evaluate/numbers/trace/passes.hpp"
#include "evaluate/numbers/trace/running_sums.hpp"
#include "evaluate/series_evaluation.hpp"

#include <algorithm>
#include <vector>

namespace wayfolio::evaluate {

/// What the passes of a trace say at the targets of its series.
class PassedTargets {
public:
    explicit PassedTargets(const document::Series& series);

    void add(const Stretch& stretch) {
        const auto [low, high] = std::minmax(stretch.from_x, stretch.to_x);
        if (low <= gap_from_ || high >= gap_to_) pass(stretch, low, high);
    }
    /// Those that a pass went by, rising.
    [[nodiscard]] std::vector<TraceTarget> targets() const;

private:
    void pass(const Stretch& stretch, double low, double high);

    struct Target {
        const document::Target* target;
        double x;
        ByApproach<RunningStatistics> passes{};
    };
    units::Dimension dimension_;  ///< of the deviations
    std::vector<Target> targets_;
    double gap_from_ = 0, gap_to_ = 0;  ///< no target lies between
};

}  // namespace wayfolio::evaluate
