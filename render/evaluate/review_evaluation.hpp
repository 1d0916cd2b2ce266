#pragma once
#include "evaluate/finding_code.hpp"
#include "evaluate/series_evaluation.hpp"

#include <array>

/// What is to be looked at: hints in the readings, warnings, and what the document lacks. Nothing here changes a result. Pointers are JSON
/// Pointers (RFC 6901) into the document; texts are final English.
namespace wayfolio::evaluate {

/// Of documents whose readings hold nothing but independent normal scatter about their targets' means, at most this share raises any
/// hint (Bonferroni).
inline constexpr double family_level = 0.03;
/// The part of it that the tests of single readings share; the others share the rest. A reading that stands off is the one fault that
/// five runs barely show, so that it gets what the others can spare.
inline constexpr double single_reading_part = 0.75;

/// Something that changes from run to run: least squares over the times of the runs, or their order in the document where not all have
/// one; one level for each direction, Student's t. Growth is tried about the first target, the last and the middle (Bonferroni).
struct RunTrend {
    double change;    ///< from the first run to the last: µm or µrad for the offset, µm/m for the growth
    double per_hour;  ///< 0 where the runs have no times
    double p, degrees_of_freedom;
    std::optional<double> rank_p;  ///< two-sided p of Mann and Kendall, the direction with the smaller one
    bool raised = false;
};

/// The run whose mean residual lies farthest off the others (externally studentised residual, Bonferroni over the runs).
struct RunApart {
    std::size_t run;  ///< place in the document
    double by;        ///< µm or µrad
    double t, p;
    bool raised = false;
};

/// All runs from one on lie higher or lower than those before: best place of a step in the run means, Student's t (Bonferroni over the
/// places that leave two runs on either side).
struct RunJump {
    std::size_t run;  ///< place in the document of the first run after the jump
    double by;        ///< µm or µrad
    double t, p;
    bool raised = false;
};

/// From one target on, in the order of travel, a run lies higher or lower: a count of the instrument is missing (Student's t, Bonferroni
/// over runs and targets). `stays`: so do all later runs.
struct MissedCount {
    std::size_t run, target;  ///< places in the document; the first reading that is off
    double by;                ///< µm or µrad
    bool stays;
    double t, p;
    bool raised = false;
};

/// Two readings of one run that fit when they are exchanged (Student's t, Bonferroni over runs and pairs).
struct ReadingsSwapped {
    std::size_t run;
    std::array<std::size_t, 2> targets;  ///< places in the document, the lower position first
    double by;                           ///< between the means of the two targets: µm or µrad
    double t, p;
    bool raised = false;
};

/// The reading farthest from the mean of its target and direction: pooled test of outliers.hpp.
struct OutlierHint {
    std::size_t run, target;  ///< places in the document
    double by;                ///< µm or µrad
    double T, p;
    double readings, nu;  ///< that the test pools
    double level = 0, critical = 0;     ///< of this test; |T| at the level
    std::optional<int> decimal_slip{};  ///< 1: ten times too large, -2: a hundred times too small; then it fits
    bool raised = false;
};

/// The strongest wave in the bidirectional means: spectrum with a line, Baluev's bound.
struct PeriodicHint {
    double period;     ///< mm or degrees
    double amplitude;  ///< µm or µrad
    double p;
    std::vector<double> aliases;  ///< periods that these targets cannot tell from it
    double shortest_resolved;     ///< twice the mean interval; of very many targets the shortest period searched
    bool raised = false;
};

/// Reversal at the first target against the last. Where it differs the axis has it so, mostly: a property of the machine, not a fault,
/// and none of the hints that family_level speaks of.
struct ClosureHint {
    double difference;  ///< µm or µrad
    double t, p;
    bool raised = false;
};

/// The tests of one series. The fault that explains most is told and taken out of the readings before the others are tested again: p of
/// a test that raised nothing is that of the last time.
struct SeriesHints {
    std::string series;
    double level;  ///< of each test but that of single readings
    Evaluated<RunTrend> drift, growth;
    Evaluated<RunApart> apart;
    Evaluated<RunJump> jump;
    Evaluated<OutlierHint> outlier;
    Evaluated<ReadingsSwapped> swapped;
    Evaluated<MissedCount> missed_count;
    Evaluated<PeriodicHint> periodic;
    Evaluated<ClosureHint> closure;
    std::vector<std::size_t> left_out{};  ///< runs that no test saw but that of gross errors, which found one in them
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
