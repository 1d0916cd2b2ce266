#pragma once
#include "evaluate/evaluation.hpp"

namespace wayfolio::evaluate {

/// The smallest expanded uncertainty that the laboratory may claim for a parameter of an error; nothing where none is stated.
std::optional<Deviation> stated_capability(const document::Document& document, const document::ErrorSymbol& error,
                                           std::string_view parameter);

/// Expanded uncertainties of every parameter the document allows one for: stated by the document, otherwise computed from its
/// instrument, drift, thermal and further contributors by the combination of the budget module. Never below the stated
/// capability.
std::vector<ParameterUncertainty> evaluate_uncertainty(const document::Document& document,
                                                       const std::vector<SeriesEvaluation>& series);

}  // namespace wayfolio::evaluate
