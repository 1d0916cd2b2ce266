#pragma once
#include "document/document.hpp"
#include "evaluate/numbers/budget.hpp"
#include "evaluate/uncertainty/contributors.hpp"
#include "evaluate/uncertainty_evaluation.hpp"

#include <span>

namespace wayfolio::evaluate {

/// The smallest expanded uncertainty that the laboratory may claim for a parameter of an error; nothing where none is stated.
std::optional<Deviation> stated_capability(const document::Document& document, const document::ErrorSymbol& error,
                                           std::string_view parameter);

/// Expanded uncertainties of every parameter the document allows one for: stated by the document, otherwise computed from its
/// instrument, drift, thermal and further contributors by the combination table. Never below the stated
/// capability.
std::vector<ParameterUncertainty> evaluate_uncertainty(const document::Document& document,
                                                       const std::vector<SeriesEvaluation>& series);

/// The entry that a budget in µm or µrad makes, with U by the document's coverage: k = 2, or Student's t for 95 % with the
/// effective degrees of freedom truncated downwards. Series and parameter are left to the caller.
/// @param unit that the entry is to be shown in
ParameterUncertainty computed(const document::Document& document, const Component& budget, const DeviationUnit& unit);

/// Puts the result of the budget for the distance of the setting targets beside it, where it is larger than what stands there.
void add_at_setting_targets(ParameterUncertainty& entry, const document::Document& document, const Component& budget);

/// ILAC-P14:09/2020 clause 5 [from memory]: what is stated is never below the capability.
void raise_to_capability(ParameterUncertainty& entry, const std::optional<Deviation>& capability);

/// Where the value lies once the bias of ranges and maxima by scatter is counted on the side where it acts, beside the U of the entry.
/// Of a U that the document states the composition is not known: the bias is added to it below the value (GUM F.2.4.5 [from memory]).
void add_interval(ParameterUncertainty& entry, const SeriesEvaluation& series, const SeriesContributors& contributors);

/// A Monte Carlo propagation beside the U of every entry of one series, or why there is none, where the document asks for it.
void add_second_opinion(std::span<ParameterUncertainty> entries, const document::Document& document, const SeriesEvaluation& series,
                        const SeriesContributors& contributors);

/// u^2 = u(slope 1)^2 + u(slope 2)^2 + u(square)^2 for every squareness asked for whose two slopes have a budget.
void add_squareness_uncertainty(std::vector<ParameterUncertainty>& entries, const document::Document& document,
                                const std::vector<SeriesEvaluation>& series);

}  // namespace wayfolio::evaluate
