#pragma once
#include "document/document.hpp"
#include "evaluate/series_evaluation.hpp"
#include "evaluate/surroundings_evaluation.hpp"

namespace wayfolio::evaluate {

/// One outcome per check, in the document's order. A reading equal to its limit passes.
std::vector<SetupOutcome> evaluate_setup(const document::Document& document);

/// What a measuring beam at an angle to the axis reads short over a length, µm: L (1 - cos theta), about L theta^2 / 2.
double cosine_error_um(double length_mm, double angle_rad);

/// One entry per axis with offsets at two positions or more, in the order of the checks. Checks that belong together carry one
/// name up to the last comma ("beam offset, near end" and "beam offset, far end"), a length unit and a position; of several, the
/// outermost two count. An offset read on the returning beam counts half. Pairs of different names on one axis (horizontal and
/// vertical) add as the squares of their slopes.
std::vector<CosineError> evaluate_cosine(const document::Document& document);

/// One entry per record of at least two readings, in the document's order.
std::vector<DriftEvaluation> evaluate_drift(const document::Document& document);

/// Everything that the environment record, the drift records and the corrections of the instruments say.
EnvironmentEvaluation evaluate_environment(const document::Document& document);

/// What is known to be wrong with the lengths of every positioning series, none of it treated yet: air and expansion coefficient that the
/// instrument took against record and axis, the angle of the beam where the offsets resolve it, the dead path.
std::vector<KnownBias> known_biases(const document::Document& document);

/// What is to be taken off the readings of a series where the document asks for it (`evaluation.air_correction`), or why that cannot be
/// had. Nothing where it is not asked for, or the series has no lengths that the air acts on.
std::optional<Evaluated<AirTakenOff>> air_to_take_off(const document::Document& document, const document::Series& series);

/// The parts of evaluate_environment().
Evaluated<AirRecord> evaluate_air(const document::Document& document);
std::vector<AxisExpansion> evaluate_expansion(const document::Document& document);
std::vector<AppliedCorrection> evaluate_applied(const document::Document& document);
std::vector<RunSurroundings> surroundings_during_runs(const document::Document& document);

}  // namespace wayfolio::evaluate
