#pragma once
#include "evaluate/review/run_residuals.hpp"
#include "evaluate/numbers/trend.hpp"

/// Hints about the readings of a series. They never change a result; each names its statistic and its level.
namespace wayfolio::evaluate {

/// Of a whole document without fault, at most this share raises any hint; it is divided by the number of tests made (Bonferroni).
inline constexpr double family_level = 0.03;

/// Something that changes from run to run: least squares over the order of the runs, one level for each direction, Student's t.
struct RunTrend {
    double change;    ///< from the first run to the last: µm or µrad for the offset, µm/m for the growth
    double per_hour;  ///< 0 where the runs have no times
    double p, degrees_of_freedom;
    std::optional<double> rank_p;  ///< two-sided p of Mann and Kendall, the direction with the smaller one
    bool raised = false;
};

/// The run whose mean residual lies farthest off the line through the others (externally studentised residual, Bonferroni over
/// the runs).
struct RunApart {
    std::size_t run;  ///< place in the document
    double by;        ///< µm or µrad
    double t, p;
    bool raised = false;
};

/// The reading farthest from the mean of its target and direction: pooled test of outliers.hpp.
struct OutlierHint {
    std::size_t run, target;  ///< places in the document
    double by;                ///< µm or µrad
    double T, p;
    double readings, nu;  ///< that the test pools
    double critical = 0;  ///< |T| at the level
    bool raised = false;
};

/// The strongest wave in the bidirectional means: spectrum with a line, Baluev's bound.
struct PeriodicHint {
    double period;     ///< mm or degrees
    double amplitude;  ///< µm or µrad
    double p;
    std::vector<double> aliases;  ///< periods that these targets cannot tell from it
    double shortest_resolved;     ///< twice the mean interval
    bool raised = false;
};

/// Reversal at the first target against the last: it differs when something moves within each cycle, or when the axis has it so.
struct ClosureHint {
    double difference;  ///< µm or µrad
    double t, p;
    bool raised = false;
};

struct SeriesHints {
    std::string series;
    double level = family_level;  ///< of each test
    Evaluated<RunTrend> drift, growth;
    Evaluated<RunApart> apart;
    Evaluated<OutlierHint> outlier;
    Evaluated<PeriodicHint> periodic;
    Evaluated<ClosureHint> closure;
};

/// One entry per series in the document's order; none when the document switches hints off.
std::vector<SeriesHints> evaluate_hints(const document::Document& document, const std::vector<SeriesEvaluation>& series);

/// The parts of evaluate_hints(), not yet held against a level.
Evaluated<RunTrend> drift_over_runs(const std::vector<RunResiduals>& runs, bool timed);
Evaluated<RunTrend> growth_over_runs(const std::vector<RunResiduals>& runs, bool timed);
Evaluated<RunApart> run_apart(const std::vector<RunResiduals>& runs);
Evaluated<OutlierHint> outlier_hint(const std::vector<RunResiduals>& runs);
Evaluated<PeriodicHint> periodic_hint(const SeriesEvaluation& series);
Evaluated<ClosureHint> closure_hint(const SeriesEvaluation& series);

/// Standard deviation of a reading about its target's mean, pooled over targets and directions, with its degrees of freedom.
struct PooledSpread {
    double s, nu;
};
std::optional<PooledSpread> pooled_spread(const SeriesEvaluation& series);

}  // namespace wayfolio::evaluate
