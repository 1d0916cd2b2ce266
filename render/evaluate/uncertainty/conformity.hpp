#pragma once
#include "evaluate/evaluation.hpp"

/// Decisions on tolerances. Rules: simple, guard band, non-binary by ILAC-G8:09/2019 clause 4; ISO 14253-1:2017 (95 %) [from
/// memory]; probability of conformity by JCGM 106:2012 clause 7.
namespace wayfolio::evaluate {

/// The width w that `rule` keeps between the limit and the acceptance limit, in the unit of `expanded`.
/// ISO 14253-1:2017 [from memory]: 1.65 u with u = U/k; simple: 0; the others: U.
double guard_band(document::DecisionRule rule, double expanded, double coverage_factor);

/// How far over its limit a value must be to be outside. Scatter makes ranges and maxima too large, never too small: the true value may
/// lie farther below the measured one than U says, so that guard is wider; the one on acceptance needs nothing.
/// @param guard of acceptance, in `unit`
double rejection_guard(document::DecisionRule rule, double guard, const ParameterUncertainty& uncertainty, const DeviationUnit& unit);

/// The verdict on a value against an upper limit, accepted up to `guard` below it and rejected from `guard_below` over it (by rules that
/// leave room between the two), all in one unit.
/// A value equal to an edge is on its better side; equality is robust to the rounding of doubles (1e-10 of the numbers' size).
Outcome judge(document::DecisionRule rule, double value, double limit, double guard, double guard_below);

/// Probability that the true value lies in [lower, upper] given an estimate and its standard uncertainty. The state of knowledge is
/// the scaled t of the effective degrees of freedom (JCGM 106:2012 7.2 with the law of JCGM 101:2008 6.4.9 and GUM G.3 [from
/// memory]), and the normal law where they are infinite (empty).
/// Infinite limits give the one-sided forms. A standard uncertainty of 0 gives 0 or 1.
double probability_of_conformity(double value, double standard, const std::optional<double>& degrees_of_freedom, double lower,
                                 double upper);

/// Decides on every tolerance of the document (series, local straightness, squareness), in the document's order.
/// Ranges and maxima have only an upper limit; a signed result (B_mean, slope, squareness) is judged by its magnitude.
std::vector<Decision> decide(const document::Document& document, const Evaluation& evaluation);

}  // namespace wayfolio::evaluate
