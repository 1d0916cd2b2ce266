#pragma once
#include "evaluate/evaluation.hpp"

namespace wayfolio::evaluate {

/// U of the difference of two results: u is the root of the sum of the squares of both standard uncertainties, whatever factor each was
/// given with, its degrees of freedom are by Welch and Satterthwaite (GUM G.4.1), and U by the coverage that the document asks for. The
/// two results are taken as independent, which is the larger value where one instrument measured both.
UncertaintyOfChange uncertainty_of_change(const document::Document& document, const ParameterUncertainty& from,
                                          const ParameterUncertainty& to);

/// The same for two results of the same readings, which share their errors: u is the larger of both.
UncertaintyOfChange uncertainty_of_shared(const document::Document& document, const ParameterUncertainty& from,
                                          const ParameterUncertainty& to);

/// Puts the U of each change beside it, where both values have one.
void add_change_uncertainty(const document::Document& document, Evaluation& evaluation);

}  // namespace wayfolio::evaluate
