#pragma once
#include "evaluate/review/readings/run_residuals.hpp"
#include "evaluate/review_evaluation.hpp"

#include <functional>

/// Tests of the readings about the means of their targets, each for one kind of fault.
namespace wayfolio::evaluate {

/// A test, with what it takes to weigh its fault against others that the same readings suggest.
template <class Hint>
struct Tried {
    Evaluated<Hint> hint;
    double squares = 0;  ///< by which the fault, fitted, lessens the sum of squares of the residuals
    double choices = 1;  ///< places where it could have been found
    std::function<void(Runs&)> take_out{};
};

/// Tests of the runs' mean residuals and slopes. What runs scatter by is taken from the runs themselves.
Tried<RunTrend> try_drift(const Runs& runs, bool timed);
Tried<RunTrend> try_growth(const Runs& runs, bool timed);
Tried<RunApart> try_apart(const Runs& runs);
Tried<RunJump> try_jump(const Runs& runs);

/// What the readings of a run scatter by once a level and a slope of the run are taken out, and how much more these two scatter.
struct WithinRuns {
    double squares, nu;                              ///< pooled over all runs
    std::vector<std::array<double, 2>> coordinates;  ///< of each run along its unit vectors: level, slope
    /// Whether either coordinate of a run is the run's own: 0 while the other runs' coordinates scatter no more than readings do (F test at
    /// 10 %), else 1.
    std::vector<std::array<double, 2>> own;
};
/// Nothing where a direction has one run only, or the targets are fewer than three.
std::optional<WithinRuns> within_runs(const Runs& runs);

/// Tests of readings within a run.
Tried<OutlierHint> try_outlier(const Runs& runs, const std::optional<WithinRuns>& within);
Tried<ReadingsSwapped> try_swapped(const Runs& runs, const std::optional<WithinRuns>& within);
Tried<MissedCount> try_missed_count(const Runs& runs, const std::optional<WithinRuns>& within);

/// A run that lies apart, or from which on all do.
struct ShiftedRun {
    std::size_t run;  ///< place in the document
    double squares, t, p;
};
/// A shift that begins at a reading rather than with a run and stays, where that explains clearly more.
std::optional<Tried<MissedCount>> count_missed_for_good(const Runs& runs, const ShiftedRun& shifted);

}  // namespace wayfolio::evaluate
