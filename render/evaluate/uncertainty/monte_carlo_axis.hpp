#pragma once
#include "evaluate/evaluation.hpp"
#include "evaluate/series_evaluation.hpp"
#include "evaluate/uncertainty/systematic_draw.hpp"

/// A second opinion on the uncertainty of positioning parameters, which are built of maxima, minima and standard deviations.
namespace wayfolio::evaluate {

struct AxisModel {
    std::vector<Component> systematic{};  ///< parts of the budget over the travel, in µm or µrad
    double drift = 0;                     ///< d, standard uncertainty of one reading; rectangular
};

/// The parameters that are simulated.
inline constexpr std::array<std::string_view, 5> simulated_parameters{"A", "E", "R", "B", "M"};

/// Draws, in every trial, the means (scaled t with n - 1 degrees of freedom and scale s / sqrt n, JCGM 101 6.4.9.2, and the mean of n
/// drifts), the standard deviations (chi-squared: their sampling law, of which the budget's u(s) = s / sqrt(2 (n - 1)) is the first
/// order [a choice]) and the systematic part, which acts on A, E and M as it does in the budget; and evaluates the parameters anew.
/// Noise is added to measured means, which hold noise already: only the spread counts, never the mean.
/// A target without one direction takes part in A and E alone.
/// Not evaluated for fewer than two targets, or where a t has no finite standard deviation (JCGM 101 6.4.9.4).
/// @return trials of as many numbers as there are parameters, in their order, in µm or µrad
Evaluated<RepeatedTrials> simulate_axis(Targets targets, const AxisModel& model, std::size_t trials, std::uint64_t seed);

/// What compare_with_first_order() wants to be counted.
Band band_of(Deviation value, Deviation expanded);

/// Compares value ± U with the interval that holds a share of the trials, to two significant digits of u (JCGM 101 clause 8). The
/// trials are moved back by mean less value: that shift is not the bias of the value, of which it sees a part.
/// Too few trials to tell a fifth of the tolerance (8.1) have their standard error given, and what is within three of it still agrees.
/// @param simulated with the interval of that share, and what lies in band_of() the value
MonteCarloResult compare_with_first_order(const Simulated& simulated, Deviation value, Deviation standard, Deviation expanded,
                                          const document::MonteCarloRequest& request);

}  // namespace wayfolio::evaluate
