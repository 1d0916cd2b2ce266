#pragma once
#include "evaluate/review/run_residuals.hpp"

namespace wayfolio::evaluate {

/// Readings that look as if they had been written down wrongly. Never corrected, only pointed at.
struct MixUp {
    enum class Kind { Sign, Unit, Order, Direction } kind;
    std::optional<std::size_t>
        run;            ///< place in the document; empty: all runs of the negative direction against the positive ones
    double factor = 1;  ///< of the shape, against the other runs
    std::string unit;   ///< for Unit: "mm written for um" and the like
    double p = 1;       ///< that noise alone makes the shape differ so (F test; for Order a ratio of variances)
};

/// Mix-ups are reported at this level for each comparison: they are gross, or they are not there.
inline constexpr double mix_up_level = 1e-6;
/// For a run that lies on those of the other direction.
inline constexpr double misplaced_level = 1e-4;

/// Compares the shape of each run with the median of the other runs of its direction, and the negative direction with the
/// positive one: sign turned, a factor that stands between two units, readings in reverse order of the targets; and a run that
/// fits the other direction better than its own. Needs five targets, and three runs in a direction to judge one of them.
std::vector<MixUp> find_mix_ups(const std::vector<RunResiduals>& runs);

}  // namespace wayfolio::evaluate
