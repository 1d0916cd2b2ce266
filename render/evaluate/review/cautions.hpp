#pragma once
#include "evaluate/evaluation.hpp"

namespace wayfolio::evaluate {

/// What a reader of the results must know: targets that lack a direction, unequal runs, stated values that differ from ours,
/// certificates out of date or not yet valid on the day of measurement.
/// @param series the evaluations, in the document's order
std::vector<Warning> cautions(const document::Document& document, const std::vector<SeriesEvaluation>& series);

/// Whether an uncertainty was stated or evaluated: only then its defaults were used.
enum class HasUncertainty { Yes, No };
/// One plain sentence for each default that the document left to the program.
std::vector<std::string> defaults_used(const document::Document& document, HasUncertainty uncertainty);

}  // namespace wayfolio::evaluate
