#include "produce/inputs.hpp"
#include "produce/input_list.hpp"
#include "produce/json_tree.hpp"

#include "evaluate/written/json_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <initializer_list>

namespace wayfolio::produce {
namespace {

using evaluate::Json;

/// Where the lines ran, as the document has them.
Json lines_json(const document::Setup& setup) {
    Json lines = Json::array();
    for (const document::MeasurementLine& line : setup.lines) {
        Json one{{"axis", line.axis}, {"at_mm", Json::object()}};
        for (const auto& [axis, mm] : line.at_mm) one["at_mm"][axis] = mm;
        if (line.offset_to_tool_point_mm) one["offset_to_tool_point_mm"] = *line.offset_to_tool_point_mm;
        lines.push_back(std::move(one));
    }
    return lines;
}

/// Nine digits: more than any instrument shows, and half of what a double takes.
double rounded(double value) {
    const std::string digits = fmt::format("{:.9}", value);
    double result = value;
    std::from_chars(digits.data(), digits.data() + digits.size(), result);
    return result;
}

Json short_form_of(const Json& json);

/// A list of things as one thing of lists: each key once, null where a thing lacks it.
Json by_column(const Json& list) {
    Json columns = Json::object();
    for (const Json& row : list)
        for (const auto& [key, value] : row.items()) columns[key];
    for (auto& [key, column] : columns.items()) {
        column = Json::array();
        for (const Json& row : list) column.push_back(row.contains(key) ? short_form_of(row[key]) : Json());
    }
    return columns;
}

Json short_form_of(const Json& json) {
    if (json.is_number_float()) return rounded(json.get<double>());
    const bool table = json.is_array() && json.size() > 1 && std::ranges::all_of(json, [](const Json& row) { return row.is_object(); });
    if (table) return by_column(json);
    Json result = json;
    if (json.is_structured())
        for (auto& value : result) value = short_form_of(value);
    return result;
}

void erase(Json& json, std::initializer_list<const char*> keys) {
    for (const char* key : keys) json.erase(key);
}

/// What a figure of the series shows: neither the sentences of its evaluation nor what stands in other figures.
Json shown_series(Json series, const std::string& figure) {
    erase(series, {"conditions", "hints", "excluded", "missing"});
    if (figure != "tool-point") erase(series, {"at_tool_point"});
    for (auto& parameter : series["parameters"]) erase(parameter, {"set_by", "scatter_bias", "uncertainty"});
    for (auto& target : series["targets"]) {
        if (figure != "reversal") erase(target, {"reversal"});
        if (figure != "repeatability") erase(target, {"R_positive", "R_negative", "R"});
        if (figure == "reversal" || figure == "tool-point") erase(target, {"s_positive", "s_negative"});
    }
    return series;
}

}  // namespace

std::string shown_data(const Drawing& drawing, const Inputs& inputs, const Product& figure) {
    Json json = signed_json(inputs);
    if (figure.figure == "measurement-lines") json["measurement_lines"] = lines_json(*drawing.document.setup);
    else if (figure.series.empty()) json["environment"] = short_form_of(evaluate::environment_json(drawing.evaluation.environment));
    if (const auto* found = evaluate::find_series(drawing.evaluation, figure.series)) {
        JsonTree series;
        evaluate::write_series(series, *found, drawing.evaluation);
        json["series"] = short_form_of(shown_series(std::move(series).taken(), figure.figure));
    }
    return evaluate::to_line(json);
}

}  // namespace wayfolio::produce
