#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Uncertainties that stand in no budget of the block and in no matrix: one direction, stated ones, squareness, headlines of other states.
/// @param shown_whole entries whose budgets are shown
std::optional<Section> other_uncertainties(const Subject& subject, const std::vector<const evaluate::ParameterUncertainty*>& shown_whole);

/// First order against Monte Carlo (JCGM 101), where the document asks for it.
std::optional<Section> second_opinion(const Subject& subject);

}  // namespace wayfolio::report
