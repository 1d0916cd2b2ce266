#pragma once
#include "evaluate/numbers/trace/passes.hpp"
#include "evaluate/numbers/trace/running_sums.hpp"
#include "evaluate/series_evaluation.hpp"

#include <vector>

namespace wayfolio::evaluate {

/// What the passes of a trace say at the targets of its series.
class PassedTargets {
public:
    explicit PassedTargets(const document::Series& series);

    void add(const Stretch& stretch);
    /// Those that a pass went by, rising.
    [[nodiscard]] std::vector<TraceTarget> targets() const;

private:
    struct Target {
        const document::Target* target;
        double x;
        ByApproach<RunningStatistics> passes{};
    };
    units::Dimension dimension_;  ///< of the deviations
    std::vector<Target> targets_;
};

}  // namespace wayfolio::evaluate
