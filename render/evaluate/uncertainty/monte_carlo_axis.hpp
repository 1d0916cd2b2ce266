#pragma once
#include "evaluate/evaluation.hpp"
#include "evaluate/series_evaluation.hpp"
#include "evaluate/numbers/monte_carlo.hpp"

/// A second opinion on the uncertainty of positioning parameters, which are built of maxima, minima and standard deviations.
namespace wayfolio::evaluate {

/// Standard uncertainties in µm, µm/m or µrad; the letters are those of the budget's combination table.
struct AxisModel {
    double per_metre = 0;  ///< a: length-proportional, one draw for the whole axis
    double constant = 0;   ///< c: the instrument's constant part, drawn together with a
    double setup = 0;      ///< g
    double drift = 0;      ///< d, of one reading
};

struct SimulatedParameter {
    std::string name;
    Simulated values;  ///< in µm or µrad
};

/// Draws, in every trial, the means (spread s / sqrt n and d / sqrt n), the standard deviations (chi-squared) and the systematic
/// parts, and evaluates A, E, R, B and M anew. Noise is added to measured means, which hold noise already: only the spread
/// counts, never the mean.
/// @param targets all with means and standard deviations in both directions; otherwise nothing is returned
/// @param names any of A E R B M
std::vector<SimulatedParameter> simulate_axis(Targets targets, const AxisModel& model, const std::vector<std::string>& names,
                                              std::size_t trials, std::uint64_t seed, double coverage = 0.95);

/// Compares with first-order propagation at the setting targets, two significant digits (JCGM 101 clause 8). The simulated
/// interval is shifted by value less mean; that shift, the other way round, is the bias.
MonteCarloResult compare_with_first_order(const Simulated& simulated, Deviation value, Deviation standard, Deviation expanded,
                                          const document::MonteCarloRequest& request);

}  // namespace wayfolio::evaluate
