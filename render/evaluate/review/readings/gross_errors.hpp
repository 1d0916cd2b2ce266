#pragma once
#include "evaluate/review/readings/run_residuals.hpp"

namespace wayfolio::evaluate {

/// Readings that look as if they had been written down wrongly. Never corrected, only pointed at.
struct GrossError {
    /// What was mixed up.
    enum class Cause { Sign, Unit, Decimal, Order, Direction } cause;
    /// Place in the document; empty: all runs of the negative direction against the positive ones.
    std::optional<std::size_t> run;
    double factor = 1;  ///< of the shape, against the other runs
    std::string unit;   ///< for Unit: "mm written for um" and the like; for Decimal: "ten times too large" and the like
    double p = 1;       ///< that noise alone makes the shape differ so (F test; for Order a ratio of variances)
};

/// Gross errors are reported at this level for each comparison: they are gross, or they are not there.
inline constexpr double gross_error_level = 1e-6;
/// For a run that lies on those of the other direction.
inline constexpr double misplaced_level = 1e-4;

/// Compares the shape of each run with the median of the other runs of its direction, and the negative direction with the
/// positive one: sign turned, a factor that stands between two units or moves the decimal point, readings in reverse order of the targets;
/// and a run that fits the other direction better than its own. Needs five targets, and three runs in a direction to judge one of them.
std::vector<GrossError> find_gross_errors(const Runs& runs, units::Dimension dimension);

}  // namespace wayfolio::evaluate
