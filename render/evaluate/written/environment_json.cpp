#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

namespace wayfolio::evaluate {
namespace {

/// Adds the value, or its reason under `not_evaluated`.
void add_evaluated(Json& object, const char* key, const std::optional<Evaluated<double>>& evaluated) {
    if (!evaluated) return;
    if (const auto* value = value_of(*evaluated))
        object[key] = *value;
    else
        object["not_evaluated"][key] = std::get<NotEvaluated>(*evaluated).reason;
}

Json air_json(const AirRecord& air) {
    Json json{{"vacuum_wavelength_nm", air.vacuum_wavelength_nm},
              {"wavelength_stated", air.wavelength_stated},
              {"ciddor", air.ciddor},
              {"edlen", air.edlen},
              {"difference", air.difference()},
              {"change_um_per_m", air.change_um_per_m()},
              {"lowest", air.lowest},
              {"highest", air.highest},
              {"samples", air.samples},
              {"mean",
               {{"air_C", air.mean.temperature_C},
                {"pressure_hPa", air.mean.pressure_Pa / 100},
                {"humidity_percent", air.mean.humidity_percent},
                {"co2_umol_per_mol", air.mean.co2_umol_per_mol}}},
              {"sensitivity_um_per_m",
               {{"per_K", air.sensitivity.per_K},
                {"per_hPa", air.sensitivity.per_hPa},
                {"per_percent", air.sensitivity.per_percent_humidity}}},
              {"over_travel", Json::array()}};
    for (const auto& axis : air.change_over_travel)
        json["over_travel"].push_back({{"axis", axis.axis}, {"length_m", axis.length_m}, {"um", axis.um}});
    return json;
}

Json expansion_json(const AxisExpansion& expansion) {
    Json json{{"axis", expansion.axis},
              {"sensors", expansion.sensors},
              {"coefficient_um_per_m_K", expansion.coefficient},
              {"temperature_C", expansion.mean_C},
              {"lowest_C", expansion.lowest_C},
              {"highest_C", expansion.highest_C},
              {"reference_C", expansion.reference_C},
              {"um_per_m", expansion.um_per_m}};
    add(json, "length_m", expansion.length_m);
    add(json, "um", expansion.um);
    if (expansion.standard) json["standard_um"] = expansion.standard->combined;
    return json;
}

Json applied_json(const AppliedCorrection& applied) {
    Json json{{"series", applied.series}};
    add_evaluated(json, "air_um_per_m", applied.air_um_per_m);
    add_evaluated(json, "expansion_um_per_m", applied.expansion_um_per_m);
    add_evaluated(json, "dead_path_um", applied.dead_path_um);
    return json;
}

Json drift_json(const DriftEvaluation& drift) {
    Json json{{"axis", drift.axis},
              {"quantity", drift.quantity},
              {"at_mm", drift.at_mm},
              {"um", drift.um},
              {"standard_um", drift.standard_um}};
    add(json, "minutes", drift.minutes);
    add(json, "test_minutes", drift.test_minutes);
    if (drift.covers_test) json["covers_test"] = *drift.covers_test;
    return json;
}

Json run_json(const RunSurroundings& run) {
    return {{"series", run.series},
            {"run", run.run},
            {"air_K", run.air_K},
            {"machine_K", run.machine_K},
            {"index_um_per_m", run.index_um_per_m}};
}

}  // namespace

Json environment_json(const EnvironmentEvaluation& environment) {
    auto json = Json::object();
    if (const auto* air = value_of(environment.air)) json["air_index"] = air_json(*air);
    json["expansion"] = Json::array();
    for (const auto& expansion : environment.expansion) json["expansion"].push_back(expansion_json(expansion));
    json["applied"] = Json::array();
    for (const auto& applied : environment.applied) json["applied"].push_back(applied_json(applied));
    json["drift"] = Json::array();
    std::optional<double> largest;
    for (const auto& drift : environment.drift) {
        json["drift"].push_back(drift_json(drift));
        largest = std::max(largest.value_or(0), drift.um);
    }
    add(json, "drift_um", largest);
    json["during_runs"] = Json::array();
    for (const auto& run : environment.during_runs) json["during_runs"].push_back(run_json(run));
    if (const auto* reason = std::get_if<NotEvaluated>(&environment.air)) json["not_evaluated"]["air_index"] = reason->reason;
    return json;
}

Json known_bias_json(const KnownBias& bias) {
    return {{"series", bias.series},
            {"influence", word(bias.influence)},
            {"um_per_m", bias.um_per_m},
            {"over_travel_um", bias.over_travel_um()},
            {"travel_m", bias.travel_m},
            {"treatment", word(bias.treatment)}};
}

Json setup_json(const SetupOutcome& outcome) {
    Json json{{"name", outcome.name}, {"check", outcome.check}, {"outcome", word(outcome.outcome)}};
    add(json, "reason", outcome.reason);
    if (outcome.common_practice) json["common_practice"] = true;
    return json;
}

Json cosine_json(const CosineError& cosine) {
    // Second order: the error grows with the square of the angle, and is always short.
    return {{"axis", cosine.axis},
            {"um", cosine.um},
            {"um_per_m", cosine.um_per_m},
            {"order", "second"},
            {"angle_urad", 1e6 * cosine.angle_rad},
            {"length_mm", cosine.length_mm},
            {"least_um", cosine.least_um},
            {"resolved", cosine.resolved}};
}

}  // namespace wayfolio::evaluate
