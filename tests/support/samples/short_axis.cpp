#include "support/samples/machine_seven.hpp"
#include "support/samples/surroundings.hpp"

namespace wayfolio::samples {
namespace {

Json series_of_short_axis() {
    const LinearAxis axis = latest_of_seven();
    Noise noise(1600);
    RunPlan plan;
    plan.targets = targets_of_seven(noise);
    plan.minutes_per_run = 3;
    const std::string specification = "purchase specification, clause 4";
    Json exx = positioning_of_seven(axis, "as-found", plan, noise);
    exx["runs"][3]["deviations"][7] = nullptr;  // the beam was interrupted and the reading not repeated
    Json& touched = exx["runs"][6];
    touched["deviations"][4] = shown(touched["deviations"][4].get<double>() + 6.3, 10);
    touched["excluded"] = Json::array({{{"target", 4}, {"reason", "crane passed over the machine"}}});
    exx["air_correction"] = {
        {"applied", true}, {"equation", "Edlen"}, {"air_C", 20.5}, {"pressure_hPa", 1008.2}, {"humidity_percent", 44}};
    exx["dead_path_mm"] = 120;
    Json list = Json::array({std::move(exx)});
    for (const char* symbol : {"EYX", "EZX"}) {
        Json series = measured_series(axis, symbol, "as-found", plan, noise);
        series["tolerances"] = Json::array({tolerance("straightness", 6, "um", specification)});
        series["tolerances"].push_back(
            {{"parameter", "local"}, {"length_mm", 300}, {"limit", 3}, {"unit", "um"}, {"source", specification}});
        list.push_back(std::move(series));
    }
    for (const char* symbol : {"EAX", "EBX", "ECX"}) {
        Json series = measured_series(axis, symbol, "as-found", plan, noise);
        series["tolerances"] = Json::array({tolerance("angle", 25, "urad", specification)});
        list.push_back(std::move(series));
    }
    return list;
}

Json setup_of_short_axis() {
    return {{"checks",
             {{{"name", "beam offset, near end"},
               {"axis", "X"},
               {"position", 0},
               {"reading", 0.1},
               {"at_most", 0.5},
               {"unit", "mm"},
               {"basis", "common practice"}},
              {{"name", "beam offset, far end"},
               {"axis", "X"},
               {"position", 1600},
               {"reading", 0.4},
               {"at_most", 0.5},
               {"unit", "mm"},
               {"basis", "common practice"}},
              {{"name", "signal over the travel, lowest"},
               {"axis", "X"},
               {"reading", 78},
               {"at_least", 60},
               {"unit", "percent"},
               {"basis", "instrument manual"}},
              {{"name", "warm-up, 40 strokes over the whole travel"},
               {"axis", "X"},
               {"done", true},
               {"basis", "agreed with the customer"}},
              {{"name", "axes not under test clamped"}, {"done", true}, {"basis", "common practice"}}}},
            {"measurement_lines",
             Json::array({{{"axis", "X"}, {"at", {{"Y", 300}, {"Z", -120}}}, {"offset_to_tool_point_mm", {0, 0, -80}}}})},
            {"feed_mm_per_min", 4000},
            {"dwell_s", 3},
            {"warm_up", "40 strokes over the whole travel, 25 minutes"}};
}

Json stated_uncertainties() {
    std::vector<Json> list = stated_for_positioning("x-exx-found");
    for (const char* series : {"x-eyx-found", "x-ezx-found"}) list.push_back(stated_uncertainty(series, "straightness", 0.9, "um"));
    for (const char* series : {"x-eax-found", "x-ebx-found", "x-ecx-found"})
        list.push_back(stated_uncertainty(series, "angle", 1.6, "urad"));
    return list;
}

Json job_of_short_axis() {
    Json job = invented_job("WF-1001", "Geometric test of the X axis of a machining centre", site_of_seven());
    job["measured"] = {{"from", "2026-05-11T08:20+02:00"}, {"to", "2026-05-11T09:20+02:00"}};
    job["issued"] = "2026-05-12";
    job["revision"] = 0;
    job["people"] = {{{"role", "measured by"}, {"name", "Field engineer 1"}},
                     {{"role", "approved by"}, {"name", "Head of laboratory"}}};
    job["method"] =
        "Work instruction 12: positioning, straightness and angles of a linear axis by laser interferometer and electronic levels, in "
        "the manner of ISO 230-1:2012 and ISO 230-2:2014";
    job["remarks"] = {"All quantities were read at each stop; runs alternate between the two approaches.",
                      "One reading is missing (beam interrupted) and one is excluded (crane); both are named in the tables."};
    return job;
}

}  // namespace

Json short_axis() {
    Surroundings around;
    around.end_minute = 9 * 60 + 20;
    around.every_minutes = 5;
    around.air_rise_K = 0.4;
    around.pressure_change_hPa = -0.3;
    around.humidity_change = -1.2;
    around.machine_rise_K = 0.15;
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job", job_of_short_axis()},
            {"machine", machine_seven()},
            {"instruments", invented_instruments()},
            {"environment", environment(around, 1601)},
            {"setup", setup_of_short_axis()},
            {"series", series_of_short_axis()},
            {"evaluation",
             {{"standard", "ISO 230-2:2014"},
              {"straightness_reference", "least-squares"},
              {"local_straightness_mm", Json::array({300})},
              {"decision_rule", "guard-band"},
              {"coverage", "k2"},
              {"hints", true}}},
            {"uncertainty", {{"stated", stated_uncertainties()}}}};
}

}  // namespace wayfolio::samples
