#pragma once
#include "report/model/model.hpp"
#include "report/words/subject.hpp"

namespace wayfolio::report {

/// Each is nothing where the document gives nothing to say.
/// Index by both equations, their difference, the change over the record and the sensitivities, per metre and over each travel.
std::optional<Section> air_section(const Subject& subject);
/// Expansion of each axis from the reference temperature, with the coefficient and its uncertainty.
std::optional<Section> expansion_section(const Subject& subject);
/// What the instrument applied against what the record says, for each series that tells.
std::optional<Section> applied_section(const Subject& subject);
/// Records at rest: E_VE.
std::optional<Section> drift_section(const Subject& subject);

/// "2.31 µm/m" written with two decimals, and lengths over a travel with one: how this page shows them.
std::string per_metre(const Subject& subject, double value);
std::string over_travel(const Subject& subject, double um);

}  // namespace wayfolio::report
