#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// Evaluates a series of angular deviations by ISO 230-1:2012 3.4.16 [from memory].
SeriesEvaluation evaluate_angle(const document::Document& document, const document::Series& series);

/// angle, angle_positive, angle_negative, B, B_mean: ranges of the means (single readings do not enter) and reversal.
/// The zero of an angle is the instrument's, so only differences are results; no slope is taken out, because a steady change of
/// angle is a real error.
std::vector<Parameter> angle_parameters(Targets targets);

}  // namespace wayfolio::evaluate
