#include "evaluate/written/json_lines.hpp"

namespace wayfolio::evaluate {

// Names may quote bytes that are not UTF-8; they become U+FFFD rather than end the program.
std::string quoted(std::string_view text) { return Json(text).dump(-1, ' ', /*ensure_ascii=*/false, Json::error_handler_t::replace); }

std::string spelled(const Json& plain) { return plain.dump(); }

Json fault_json(const input::Problem& fault) {
    Json json{{"file", fault.file},
              {"line", fault.place.line},
              {"column", fault.place.column},
              {"pointer", fault.place.pointer},
              {"found", fault.found},
              {"expected", fault.expected}};
    if (!fault.hint.empty()) json["hint"] = fault.hint;
    return json;
}

std::string to_text(const Json& json) {
    JsonLines lines;
    lines.json(json);
    return std::move(lines).taken() + "\n";
}

std::string to_line(const Json& json) {
    const std::string lines = to_text(json);
    std::string line;
    for (std::size_t at = 0; at < lines.size(); ++at) {
        if (lines[at] != '\n') {  // those in its texts are escaped: these are its own
            line += lines[at];
            continue;
        }
        while (at + 1 < lines.size() && lines[at + 1] == ' ') ++at;
    }
    return line;
}

DeviationUnit written_unit(const Deviation& deviation, const DeviationUnit& series_unit) {
    if (deviation.dimension() == series_unit.dimension) return series_unit;
    return deviation.dimension() == units::Dimension::Length ? DeviationUnit(units::micrometre)
                                                             : DeviationUnit(units::micrometre_per_metre);
}

void add(Json& object, const char* key, const std::optional<Deviation>& deviation, const DeviationUnit& series_unit) {
    if (deviation) object[key] = deviation->in(written_unit(*deviation, series_unit));
}

void add(Json& object, const char* key, const std::optional<double>& number) {
    if (number) object[key] = *number;
}

void add(Json& object, const char* key, const std::string& text) {
    if (!text.empty()) object[key] = text;
}

void add(JsonSink& object, std::string_view name, const std::optional<Deviation>& deviation, const DeviationUnit& series_unit) {
    if (deviation) object.add(name, deviation->in(written_unit(*deviation, series_unit)));
}

void add(JsonSink& object, std::string_view name, const std::optional<double>& number) {
    if (number) object.add(name, *number);
}

void add(JsonSink& object, std::string_view name, const std::string& text) {
    if (!text.empty()) object.add(name, text);
}

}  // namespace wayfolio::evaluate
