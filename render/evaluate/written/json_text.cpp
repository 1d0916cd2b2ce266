#include "evaluate/written/json_parts.hpp"
#include "units/number_text.hpp"

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

void write(std::string& out, const Json& json, std::size_t depth);

void new_line(std::string& out, std::size_t depth) { out.append("\n").append(2 * depth, ' '); }

/// Nothing that JSON writes otherwise than it is.
bool is_plain(const std::string& text) {
    return std::ranges::all_of(text, [](unsigned char c) { return c >= ' ' && c < 0x7f && c != '"' && c != '\\'; });
}

void write_text(std::string& out, const std::string& text) {
    // Nearly all texts: the library takes a thousand instructions to begin one.
    if (is_plain(text)) {
        out.append("\"").append(text).append("\"");
        return;
    }
    // Names may quote bytes that are not UTF-8; they become U+FFFD rather than end the program.
    out += Json(text).dump(-1, ' ', /*ensure_ascii=*/false, Json::error_handler_t::replace);
}

void write_array(std::string& out, const Json& json, std::size_t depth) {
    out += '[';
    for (std::size_t i = 0; i < json.size(); ++i) {
        if (i > 0) out += ',';
        new_line(out, depth + 1);
        write(out, json[i], depth + 1);
    }
    if (!json.empty()) new_line(out, depth);
    out += ']';
}

void write_object(std::string& out, const Json& json, std::size_t depth) {
    out += '{';
    bool first = true;
    for (const auto& [key, value] : json.items()) {
        if (!first) out += ',';
        first = false;
        new_line(out, depth + 1);
        write_text(out, key);
        out += ": ";
        write(out, value, depth + 1);
    }
    if (!json.empty()) new_line(out, depth);
    out += '}';
}

void write(std::string& out, const Json& json, std::size_t depth) {
    if (json.is_object())
        write_object(out, json, depth);
    else if (json.is_array())
        write_array(out, json, depth);
    else if (json.is_number_float())
        out += units::shortest(json.get<double>());
    else if (json.is_string())
        write_text(out, json.get_ref<const std::string&>());
    else
        out += json.dump();
}

}  // namespace

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
    std::string out;
    write(out, json, 0);
    return out + "\n";
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

}  // namespace wayfolio::evaluate
