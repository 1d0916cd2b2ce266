#include "support/samples/awkward_parts.hpp"
#include "support/samples/surroundings.hpp"

/// Surroundings recorded over two days with gaps and many sensors, and a budget with all that a budget may hold.
namespace wayfolio::samples {
namespace {

const std::vector<std::string> sensors{"bed near the operator's side", "bed far",    "scale, reading head",
                                       "spindle housing",              "hydraulics", "foundation beside the third support"};

/// Every two hours; the air station fell silent once, one sensor was plugged in late.
Json two_days() {
    Surroundings around;
    around.start_minute = 0;
    around.end_minute = 47 * 60;
    around.every_minutes = 120;
    around.sensors = sensors;
    Json record = environment(around, 2101);
    Json& samples = record["samples"];
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const int hour = static_cast<int>(i) * 2;
        samples[i]["time"] = clock_time(hour < 24 ? "2026-05-11" : "2026-05-12", hour % 24 * 60);
        if (i == 9) samples[i].erase("air_C");
        if (i < 4) samples[i]["machine_C"].erase("hydraulics");
    }
    return record;
}

Json contributor(const std::string& name, double half_width, const std::string& unit, const std::string& distribution) {
    return {{"name", name}, {"applies_to", {"EXX"}}, {"half_width", half_width}, {"unit", unit}, {"distribution", distribution}};
}

Json contributors() {
    Json air = contributor("air temperature, as the station shows it beside the path of the beam", 0.1, "um/m", "rectangular");
    air["correlated"] = "station";
    air["basis"] = "certificate of the station, with what two of them differed by when they hung side by side for a night";
    Json pressure = contributor("pressure", 0.05, "um/m", "triangular");
    pressure["correlated"] = "station";
    Json cosine = contributor("cosine error", 0.1, "um", "u-shaped");
    cosine["influence"] = "cosine";
    return Json::array({std::move(air), std::move(pressure), std::move(cosine)});
}

}  // namespace

Json surroundings_and_budgets() {
    Noise noise(21);
    RunPlan plan;
    plan.targets = {0, 110, 240, 380, 500};
    plan.runs_each_way = 3;
    plan.minutes_per_run = 60;
    Json series = measured_series(middling_axis(500), "EXX", "as-found", plan, noise);
    series.erase("measurement_line");
    series["tolerances"] = {tolerance("A", 6, "um", "order"), tolerance("E", 4, "um", "order"), tolerance("R", 2, "um", "order")};
    series["air_correction"] = {{"applied", true}};
    series["expansion_correction"] = {{"applied", true}, {"coefficient_um_per_m_K", 10}};
    series["dead_path_mm"] = 90;
    Json document = bare_document("AW-21", "Environment over two days and every kind of input quantity", Json::array({std::move(series)}));
    document["machine"] =
        invented_machine({"milling machine", "Demonstrator T", "T-0021"},
                         Json::array({{{"name", "X"},
                                       {"kind", "linear"},
                                       {"sensors", sensors},
                                       {"travel", {{"from", 0}, {"to", 500}, {"unit", "mm"}}},
                                       {"expansion_um_per_m_K", {{"value", 11.5}, {"expanded_uncertainty", 2}, {"coverage_factor", 2}}}}}));
    document["instruments"] = invented_instruments();
    document["environment"] = two_days();
    document["evaluation"] = {
        {"decision_rule", "non-binary"}, {"coverage", "95-percent"}, {"monte_carlo", {{"trials", 4000}, {"seed", 5}}}};
    document["uncertainty"] = {{"contributors", contributors()}};
    document["drift"] = Json::array({drift_record("X", 250, "2026-05-11", 15 * 60, 45, 0.5, 2102)});
    return document;
}

}  // namespace wayfolio::samples
