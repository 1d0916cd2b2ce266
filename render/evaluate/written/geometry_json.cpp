#include "evaluate/written/compensation_text.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

namespace wayfolio::evaluate {
namespace {

Json points_json(const CompensationTable& table, const CompensationEvaluation& compensation) {
    auto json = Json::array();
    for (const auto& point : table.points)
        json.push_back({{"position", table_number(point.position.in(compensation.position_unit))},
                        {"correction", table_number(point.correction.in(compensation.unit))},
                        {"change", table_number(point.change.in(compensation.unit))}});
    return json;
}

/// In the unit of the pair; a slope of a length error names its own.
Json change_json(const FoundAgainstLeftParameter& parameter, const DeviationUnit& unit_of_pair) {
    const DeviationUnit unit = written_unit(parameter.left, unit_of_pair);
    auto json = Json::object();
    if (!(unit == unit_of_pair)) json["unit"] = unit.spelling;
    json["found"] = parameter.found.in(unit);
    json["left"] = parameter.left.in(unit);
    json["change"] = parameter.change.in(unit);
    if (!parameter.uncertainty) return json;
    json["standard"] = parameter.uncertainty->standard.in(unit);
    json["expanded"] = parameter.uncertainty->expanded.in(unit);
    json["coverage_factor"] = parameter.uncertainty->coverage_factor;
    add(json, "degrees_of_freedom", parameter.uncertainty->degrees_of_freedom);
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
    if (squareness.beyond_right_angle) json["beyond_right_angle"] = squareness.beyond_right_angle->in(units::microradian);
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
              {"zero_at", compensation.reference.in(compensation.position_unit)},
              {"point_interval", compensation.spacing},
              {"rounded_to", compensation.increment},
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
    for (const auto& parameter : comparison.parameters) json["parameters"][parameter.name] = change_json(parameter, comparison.unit);
    return json;
}

Json squareness_found_against_left_json(const SquarenessFoundAgainstLeft& comparison, const Evaluation& evaluation) {
    const auto &found = evaluation.squareness[comparison.found], &left = evaluation.squareness[comparison.left];
    const DeviationUnit unit = units::microradian;
    return {{"axes", left.axes},
            {"found", found.series},
            {"left", left.series},
            {"unit", unit.spelling},
            {"parameters", {{comparison.parameter.name, change_json(comparison.parameter, unit)}}}};
}

}  // namespace wayfolio::evaluate
