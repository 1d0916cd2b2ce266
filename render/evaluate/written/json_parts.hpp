#pragma once
#include "evaluate/evaluation.hpp"
#include "evaluate/written/json_sink.hpp"

/// What evaluation_json() is put together from.
namespace wayfolio::evaluate {

void write_series(JsonSink& to, const SeriesEvaluation& series, const Evaluation& evaluation);
/// What the trace of a series says.
Json trace_json(const TraceEvaluation& trace, const SeriesEvaluation& series);

void write_uncertainty(JsonSink& to, const ParameterUncertainty& uncertainty);
void write_decision(JsonSink& to, const Decision& decision);
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
