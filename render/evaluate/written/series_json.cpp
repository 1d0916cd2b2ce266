#include "evaluate/series/targets.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

namespace wayfolio::evaluate {
namespace {

/// As the document wrote it, where it is a target.
double written_position(const SetBy& setter, const SeriesEvaluation& series) {
    const bool target = setter.index < series.targets.size() && series.targets[setter.index].position == setter.position;
    return target ? series.targets[setter.index].written : setter.position.in(series.position_unit);
}

Json set_by_json(const SetBy& setter, const SeriesEvaluation& series) {
    Json json{{"position", written_position(setter, series)}};
    if (setter.approach) json["approach"] = word(*setter.approach);
    if (setter.side) json["side"] = word(*setter.side);
    json["level"] = setter.level.in(written_unit(setter.level, series.unit));
    return json;
}

Json scatter_bias_json(const Evaluated<ScatterBias>& evaluated, const DeviationUnit& unit) {
    if (const auto* why = std::get_if<NotEvaluated>(&evaluated)) return {{"not_evaluated", why->reason}};
    const auto& bias = std::get<ScatterBias>(evaluated);
    return {{"up_to", Deviation(bias.up_to(), base_unit(unit.dimension)).in(unit)}, {"degrees_of_freedom", bias.degrees_of_freedom}};
}

Json parameters_json(const std::vector<Parameter>& parameters, const SeriesEvaluation& series, const Evaluation& evaluation) {
    auto json = Json::object();
    for (const auto& parameter : parameters) {
        if (value_of(parameter.value) == nullptr && !parameter.stated) continue;
        json[parameter.name] = parameter_json(parameter, series);
        if (find_uncertainty(evaluation, series.id, parameter.name) != nullptr)
            json[parameter.name]["uncertainty"] = parameter.name;
    }
    return json;
}

Json lines_json(const SeriesEvaluation& series) {
    auto json = Json::object();
    for (const auto& line : series.lines) {
        auto& entry = json[std::string(word(line.kind))];
        entry["straightness"] = line.straightness.in(written_unit(line.straightness, series.unit));
        entry["slope"] = line.slope.in(units::micrometre_per_metre);
        entry["offset"] = line.offset.in(written_unit(line.offset, series.unit));
        if (line.one_way)
            entry["approach"] = word(*line.one_way);
        else
            entry["straightness_mean"] = line.mean_range.in(written_unit(line.mean_range, series.unit));
    }
    return json;
}

Json local_json(const LocalStraightness& local, const SeriesEvaluation& series) {
    return {{"length", local.window.in(units::millimetre)},
            {"unit", "mm"},
            {"straightness", local.value.in(written_unit(local.value, series.unit))},
            {"from", local.from.in(units::position_millimetre)},
            {"to", local.to.in(units::position_millimetre)},
            {"reference_line", word(local.reference)}};
}

Json target_json(const TargetEvaluation& target, const SeriesEvaluation& series) {
    Json json{{"position", target.written}};
    if (series.source == Source::Runs) {
        json["n_positive"] = target.one_way.positive.n;
        json["n_negative"] = target.one_way.negative.n;
    }
    add(json, "mean_positive", target.one_way.positive.mean, series.unit);
    add(json, "mean_negative", target.one_way.negative.mean, series.unit);
    add(json, "mean", target.mean, series.unit);
    add(json, "s_positive", target.one_way.positive.s, series.unit);
    add(json, "s_negative", target.one_way.negative.s, series.unit);
    add(json, "reversal", target.reversal, series.unit);
    add(json, "R_positive", target.one_way.positive.R, series.unit);
    add(json, "R_negative", target.one_way.negative.R, series.unit);
    add(json, "R", target.R, series.unit);
    return json;
}

Json moved_target_json(const AtToolPoint::Target& target, const DeviationUnit& unit, const PositionUnit& position_unit) {
    Json json{{"position", target.position.in(position_unit)}};
    add(json, "effect_positive", target.effect.positive, unit);
    add(json, "effect_negative", target.effect.negative, unit);
    add(json, "mean_positive", target.mean.positive, unit);
    add(json, "mean_negative", target.mean.negative, unit);
    return json;
}

Json not_evaluated_json(const std::vector<Parameter>& parameters) {
    auto json = Json::object();
    for (const auto& parameter : parameters)
        if (const auto* obstacle = std::get_if<NotEvaluated>(&parameter.value)) json[parameter.name] = obstacle->reason;
    return json;
}

/// At the tool point no uncertainty is given, so none is named.
Json tool_point_json(const AtToolPoint& moved, const SeriesEvaluation& series) {
    Json json{{"offset_mm", moved.offset_mm}};
    add(json, "largest", moved.largest, moved.unit);
    for (const auto& setter : moved.set_by) json["set_by"].push_back(set_by_json(setter, series));
    json["unit"] = moved.unit.spelling;
    json["from"] = moved.from;
    json["parameters"] = Json::object();
    for (const auto& parameter : moved.parameters)
        if (value_of(parameter.value) != nullptr) json["parameters"][parameter.name] = parameter_json(parameter, series);
    json["targets"] = Json::array();
    for (const auto& target : moved.targets) json["targets"].push_back(moved_target_json(target, moved.unit, series.position_unit));
    json["not_evaluated"] = not_evaluated_json(moved.parameters);
    return json;
}

Json air_correction_json(const Evaluated<AirTakenOff>& evaluated, const SeriesEvaluation& series) {
    if (const auto* why = std::get_if<NotEvaluated>(&evaluated)) return {{"not_evaluated", why->reason}};
    const auto& air = std::get<AirTakenOff>(evaluated);
    return {{"um_per_m", air.um_per_m}, {"zero", air.zero.in(series.position_unit)}};
}

Json readings_json(const std::vector<ExcludedReading>& readings) {
    auto json = Json::array();
    for (const auto& reading : readings)
        json.push_back({{"run", reading.run}, {"target", reading.target}, {"reason", reading.reason}});
    return json;
}

Json readings_json(const std::vector<MissingReading>& readings) {
    auto json = Json::array();
    for (const auto& reading : readings) json.push_back({{"run", reading.run}, {"target", reading.target}});
    return json;
}

Json head_json(const SeriesEvaluation& series) {
    Json json{{"id", series.id}, {"error", series.error.text()}};
    add(json, "state", series.state);
    json["kind"] = word(series.kind);
    json["unit"] = series.unit.spelling;
    json["position_unit"] = series.position_unit.spelling;
    json["standard"] = series.standard;
    json["source"] = word(series.source);
    return json;
}

}  // namespace

Json condition_json(const Condition& condition) {
    Json json{{"name", condition.name}, {"holds", condition.holds ? Json(*condition.holds) : Json(nullptr)}};
    add(json, "found", condition.found);
    add(json, "asked", condition.asked);
    add(json, "unit", condition.unit);
    json["text"] = condition.text;
    return json;
}

Json parameter_json(const Parameter& parameter, const SeriesEvaluation& series) {
    auto json = Json::object();
    const auto* value = value_of(parameter.value);
    const auto unit = written_unit(value != nullptr ? *value : parameter.stated.value(), series.unit);
    if (value != nullptr) json["value"] = value->in(unit);
    json["unit"] = unit.spelling;
    add(json, "raw", parameter.raw, unit);
    if (parameter.reference_line) json["reference_line"] = word(*parameter.reference_line);
    for (const auto& setter : parameter.set_by) json["set_by"].push_back(set_by_json(setter, series));
    if (parameter.scatter_bias) json["scatter_bias"] = scatter_bias_json(*parameter.scatter_bias, unit);
    if (parameter.stated) json["stated"] = parameter.stated->in(written_unit(*parameter.stated, series.unit));
    return json;
}

Json series_json(const SeriesEvaluation& series, const Evaluation& evaluation) {
    auto json = head_json(series);
    json["conditions"] = Json::array();
    for (const auto& condition : series.conditions) json["conditions"].push_back(condition_json(condition));
    json["parameters"] = parameters_json(series.parameters, series, evaluation);
    if (!series.lines.empty()) json["lines"] = lines_json(series);
    if (!series.local.empty()) json["local"] = Json::array();
    for (const auto& local : series.local) json["local"].push_back(local_json(local, series));
    json["targets"] = Json::array();
    for (const auto& target : series.targets) json["targets"].push_back(target_json(target, series));
    json["excluded"] = readings_json(series.excluded);
    json["missing"] = readings_json(series.missing);
    if (series.air_correction) json["air_correction"] = air_correction_json(*series.air_correction, series);
    add(json, "closing_error", series.closing_error, series.unit);
    if (series.trace) json["trace"] = trace_json(*series.trace, series);
    if (series.at_tool_point) json["at_tool_point"] = tool_point_json(*series.at_tool_point, series);
    json["not_evaluated"] = not_evaluated_json(series.parameters);
    for (const auto& hints : evaluation.hints)
        if (hints.series == series.id) json["hints"] = hints_json(hints, series);
    return json;
}

}  // namespace wayfolio::evaluate
