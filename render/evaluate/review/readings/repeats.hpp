#pragma once
#include "evaluate/review/readings/run_residuals.hpp"

namespace wayfolio::evaluate {

/// Readings that are alike to the last digit where readings scatter: each was read once, and written down or sent again.
struct RepeatedReadings {
    enum class Kind {
        Run,     ///< a run equals an earlier one
        Sensor,  ///< from one target on, in the order of travel, a run repeats one number
        Target   ///< one number at one target in all runs, or in all of one direction
    } kind;
    std::optional<std::size_t> run{};      ///< place in the document; for Run the later one
    std::optional<std::size_t> earlier{};  ///< for Run
    std::optional<std::size_t> target{};   ///< place in the document; for Sensor the first one
    std::optional<Approach> approach{};    ///< for Target, where it is one direction only
    std::size_t count;                     ///< readings that are alike
    double value;                          ///< µm or µrad; 0 for Run
    double p;                              ///< at most, that readings of this resolution and scatter come out alike
};

/// Repeats are told from this probability down.
inline constexpr double repeat_level = 1e-3;

/// What decides whether equal readings say anything.
struct Resolution {
    double step;     ///< of which all readings are multiples, in base units
    double scatter;  ///< of single readings within a run, from the median of their absolute values
    /// At most this share of readings falls on a given number.
    [[nodiscard]] double same_by_chance() const;
};
Resolution resolution_of(const document::Series& series, const Runs& runs);

/// Two readings are alike by chance with the probability of the likeliest step of the resolution, about 0.4 step / scatter: coarse or
/// quiet readings repeat themselves, and nothing is said of them. A zero at the end of the travel or at position 0, in one direction,
/// is where the instrument was set to zero.
std::vector<RepeatedReadings> find_repeats(const document::Series& series, const Runs& runs);

}  // namespace wayfolio::evaluate
