#pragma once
#include "evaluate/evaluation.hpp"
#include "evaluate/written/json_text.hpp"

/// What evaluation_json() is put together from.
namespace wayfolio::evaluate {

Json series_json(const SeriesEvaluation& series, const Evaluation& evaluation);
/// One named result: value, unit, set_by, stated, the name of its uncertainty.
Json parameter_json(const Parameter& parameter, const SeriesEvaluation& series);
/// What the trace of a series says.
Json trace_json(const TraceEvaluation& trace, const SeriesEvaluation& series);
Json condition_json(const Condition& condition);

Json uncertainty_json(const ParameterUncertainty& uncertainty);
Json decision_json(const Decision& decision);
Json squareness_json(const SquarenessEvaluation& squareness);
Json compensation_json(const CompensationEvaluation& compensation);
Json found_against_left_json(const FoundAgainstLeft& comparison);
Json squareness_found_against_left_json(const SquarenessFoundAgainstLeft& comparison, const Evaluation& evaluation);

Json environment_json(const EnvironmentEvaluation& environment);
Json setup_json(const SetupOutcome& outcome);
Json cosine_json(const CosineError& cosine);
Json known_bias_json(const KnownBias& bias);

/// Every test that was made, raised or not, with its statistic and level; lengths in µm, angles in µrad, as `unit` says.
Json hints_json(const SeriesHints& hints, const SeriesEvaluation& series);

}  // namespace wayfolio::evaluate
