#pragma once
#include "evaluate/series_evaluation.hpp"
#include "input/problem.hpp"

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

/// JSON as the program writes it.
namespace wayfolio::evaluate {

using Json = nlohmann::ordered_json;

/// Indented by two. nlohmann's own dump does not always give the shortest text of a double: numbers are written here.
std::string to_text(const Json& json);

/// The same in one line, without its end.
std::string to_line(const Json& json);

/// A text as JSON quotes it.
std::string quoted(std::string_view text);

/// What is neither object, array, text nor a number with decimals.
std::string spelled(const Json& plain);

/// A fault of an input with its place, as every answer of the program tells it.
Json fault_json(const input::Problem& fault);

/// The unit that a deviation of a series is written in: the series' own; a slope of a length error in µm/m.
DeviationUnit written_unit(const Deviation& deviation, const DeviationUnit& series_unit);

/// Adds `key` where there is a value.
void add(Json& object, const char* key, const std::optional<Deviation>& deviation, const DeviationUnit& series_unit);
void add(Json& object, const char* key, const std::optional<double>& number);
void add(Json& object, const char* key, const std::string& text);

}  // namespace wayfolio::evaluate
