#pragma once
#include "evaluate/evaluation.hpp"

#include <nlohmann/json.hpp>
#include <string>

/// What evaluation_json() is put together from.
namespace wayfolio::evaluate {

using Json = nlohmann::ordered_json;

/// Indented by two. nlohmann's own dump does not always give the shortest text of a double: numbers are written here.
std::string to_text(const Json& json);

/// The unit that a deviation of a series is written in: the series' own; a slope of a length error in µm/m.
DeviationUnit written_unit(const Deviation& deviation, const DeviationUnit& series_unit);

/// Adds `key` where there is a value.
void add(Json& object, const char* key, const std::optional<Deviation>& deviation, const DeviationUnit& series_unit);
void add(Json& object, const char* key, const std::optional<double>& number);
void add(Json& object, const char* key, const std::string& text);

Json series_json(const SeriesEvaluation& series, const Evaluation& evaluation);
/// One named result: value, unit, set_by, stated, the name of its uncertainty.
Json parameter_json(const Parameter& parameter, const SeriesEvaluation& series);
Json condition_json(const Condition& condition);

Json uncertainty_json(const ParameterUncertainty& uncertainty);
Json decision_json(const Decision& decision);
Json squareness_json(const SquarenessEvaluation& squareness);
Json compensation_json(const CompensationEvaluation& compensation);
Json comparison_json(const Comparison& comparison);

}  // namespace wayfolio::evaluate
