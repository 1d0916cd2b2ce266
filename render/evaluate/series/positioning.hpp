#pragma once
#include "evaluate/series/extremes.hpp"

namespace wayfolio::evaluate {

/// The parameters of ISO 230-2 (1997, 2006 and 2014 alike) [formulas from memory of clause 3]:
/// A A_positive A_negative E E_positive E_negative R R_positive R_negative B B_mean M, in this order.
/// What the targets cannot support is not evaluated, with the reason. Also used on predicted targets.
/// @param unit the positions are named in
std::vector<Parameter> positioning_parameters(Targets targets, const PositionUnit& unit);

/// A, A_positive, A_negative with k standard deviations (k = 2 since 1997, 3 in 1988), under names that begin with `prefix`.
std::vector<Parameter> band_parameters(const std::string& prefix, double k, Targets targets, const PositionUnit& unit);

/// R, R_positive, R_negative with k standard deviations.
std::vector<Parameter> repeatability_parameters(const std::string& prefix, double k, Targets targets, const PositionUnit& unit);

/// B (largest absolute reversal) and B_mean (signed), over the targets that have both directions.
std::vector<Parameter> reversal_parameters(Targets targets);

/// The parameters of an older evaluation, each under its own name, never mixed with those of 1997 and later [formulas from memory]:
// clang-format off
/// ISO 230-2:1988 (3 s for 2 s): s3_A s3_A_positive s3_A_negative s3_R s3_R_positive s3_R_negative;
/// VDI/DGQ 3441:1977: vdi_P vdi_Pa vdi_Ps vdi_Ps_mean vdi_U vdi_U_mean.
// clang-format on
std::vector<Parameter> older_parameters(document::OlderStandard edition, Targets targets, const PositionUnit& unit);

/// A positioning series with its parameters and the older evaluations that the document asks for.
/// @param air to be taken off the readings before; each parameter then keeps its value without that under `raw`
SeriesEvaluation evaluate_positioning(const document::Document& document, const document::Series& series,
                                      const std::optional<Evaluated<AirTakenOff>>& air = {});

}  // namespace wayfolio::evaluate
