#pragma once
#include <nlohmann/json.hpp>

#include <string>

namespace wayfolio::samples {

using Json = nlohmann::ordered_json;

/// A number that keeps its written decimals, as "196.1240".
Json number_as_written(const std::string& digits);

/// JSON text a person can read: what fits on a line stands on one, lists of readings are filled up to the line's width.
std::string json_text(const Json& document);

}  // namespace wayfolio::samples
