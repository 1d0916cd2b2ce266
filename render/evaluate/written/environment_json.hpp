#pragma once
#include "evaluate/written/json_parts.hpp"

/// Set-up, surroundings and hints as parts of evaluation_json().
namespace wayfolio::evaluate {

Json environment_json(const EnvironmentEvaluation& environment);
Json setup_json(const SetupOutcome& outcome);
Json cosine_json(const CosineError& cosine);

/// Every test that was made, raised or not, with its statistic and level; lengths in µm, angles in µrad, as `unit` says.
Json hints_json(const SeriesHints& hints, const SeriesEvaluation& series);

}  // namespace wayfolio::evaluate
