#pragma once
#include "document/document.hpp"
#include "evaluate/series_evaluation.hpp"

#include <span>

/// Scatter makes ranges and maxima too large: among several noisy values the largest is partly the luckiest.
namespace wayfolio::evaluate {

// clang-format off
/// Puts beside every range and maximum of the combination table what the scatter of the readings adds to it: the expected largest noise
/// among the values that may set it. The value itself stays that of its standard.
///
///   E, straightness, angle, M, straightness_mean   means (about a line: with the noise of its slope), highest and lowest
///   A                                              means + 2 s, means - 2 s
///   R                                              2 s_up + 2 s_down + B and - B, 4 s_up, 4 s_down at every target; one way 4 s
///   B                                              B and -B at every target
///
/// [derived; the choices in it (window, closing of gaps) by simulation, tests/evaluate/scatter_bias_coverage_test.cpp]
/// Values of one target are taken as independent: exact for A, E and M, up to 10 % too much for R, 2 % too little for B.
/// Linear results (B_mean, slope) have none, and neither have values of other evaluations.
// clang-format on
void add_scatter_bias(const document::Document& document, std::span<SeriesEvaluation> series);

/// The same for one series.
/// @param drift standard uncertainty of one reading by drift, in the base unit
void add_scatter_bias(SeriesEvaluation& series, double drift);

/// How far below the value the true one may be, and how far above it, at the standard normal quantile z (1.960: 95 % between them).
/// Upwards only the ordinary noise of what sets the value acts: the range at the true extremes is no larger than the measured one.
/// @param systematic standard uncertainty beside the scatter, in the base unit
double below(const ScatterBias& bias, double systematic, double z);
double above(const ScatterBias& bias, double systematic, double z);

}  // namespace wayfolio::evaluate
