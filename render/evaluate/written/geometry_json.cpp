#include "evaluate/written/compensation_text.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

namespace wayfolio::evaluate {
namespace {

Json points_json(const CompensationTable& table, const CompensationEvaluation& compensation) {
    auto json = Json::array();
    for (const auto& point : table.points)
        json.push_back({{"position", table_number(point.position.in(compensation.position_unit))},
                        {"absolute", table_number(point.absolute.in(compensation.unit))},
                        {"incremental", table_number(point.incremental.in(compensation.unit))}});
    return json;
}

std::string points_key(const CompensationTable& table) {
    return table.approach ? "points_" + std::string(word(*table.approach)) : "points";
}

}  // namespace

Json squareness_json(const SquarenessEvaluation& squareness) {
    Json json{{"axes", squareness.axes}, {"symbol", squareness.symbol}};
    if (const auto* value = value_of(squareness.value)) json["value"] = value->in(units::microradian);
    json["unit"] = "urad";
    json["reference_line"] = word(squareness.reference_line);
    json["from"] = squareness.series;
    if (squareness.opening) json["opening"] = squareness.opening->in(units::microradian);
    if (squareness.square_error) json["square_error"] = squareness.square_error->in(units::microradian);
    add(json, "square_serial", squareness.square_serial);
    json["lines"] = Json::object();
    for (const auto& line : squareness.lines)
        json["lines"][std::string(word(line.line))] = {
            {"slopes", {line.slope_first.in(units::microradian), line.slope_second.in(units::microradian)}},
            {"value", line.value.in(units::microradian)}};
    if (const auto* obstacle = std::get_if<NotEvaluated>(&squareness.value)) json["not_evaluated"] = obstacle->reason;
    return json;
}

Json compensation_json(const CompensationEvaluation& compensation) {
    Json json{{"axis", compensation.axis},
              {"series", compensation.series},
              {"table", word(compensation.kind)},
              {"unit", compensation.unit.spelling},
              {"position_unit", compensation.position_unit.spelling},
              {"reference", compensation.reference.in(compensation.position_unit)},
              {"spacing", compensation.spacing},
              {"increment", compensation.increment},
              {"sign", "correction = minus error, added to the commanded position"}};
    for (const auto& table : compensation.tables) json[points_key(table)] = points_json(table, compensation);
    add(json, "reversal", compensation.reversal, compensation.unit);
    auto predicted = Json::object();
    for (const auto& parameter : compensation.predicted)
        if (const auto* value = value_of(parameter.value)) predicted[parameter.name] = value->in(compensation.unit);
    if (!predicted.empty()) json["predicted"] = predicted;
    if (!compensation.refused.empty()) json["refused"] = compensation.refused;
    if (!compensation.remarks.empty()) json["remarks"] = compensation.remarks;
    return json;
}

Json found_against_left_json(const FoundAgainstLeft& comparison) {
    Json json{{"found", comparison.found},
              {"left", comparison.left},
              {"unit", comparison.unit.spelling},
              {"parameters", Json::object()}};
    for (const auto& parameter : comparison.parameters) {
        auto& entry = json["parameters"][parameter.name];
        add(entry, "found", parameter.found, comparison.unit);
        add(entry, "left", parameter.left, comparison.unit);
        add(entry, "change", parameter.change, comparison.unit);
    }
    return json;
}

}  // namespace wayfolio::evaluate
