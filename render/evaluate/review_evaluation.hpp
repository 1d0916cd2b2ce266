#pragma once
#include "evaluate/finding_code.hpp"
#include "evaluate/series_evaluation.hpp"

/// What is to be looked at: hints in the readings, warnings, and what the document lacks. Nothing here changes a result. Pointers are JSON
/// Pointers (RFC 6901) into the document; texts are final English.
namespace wayfolio::evaluate {

/// Of a whole document without fault, at most this share raises any hint; it is divided by the number of tests made (Bonferroni).
inline constexpr double family_level = 0.03;

/// Something that changes from run to run: least squares over the times of the runs, or their order in the document where not all have
/// one; one level for each direction, Student's t.
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

/// What the document still lacks, and for which purpose.
struct Lack {
    std::string purpose, what, pointer;  ///< purpose e.g. "ISO/IEC 17025 7.8.2.1 j"
};

struct Warning {
    FindingCode code;
    std::string pointer, text;
};

}  // namespace wayfolio::evaluate
