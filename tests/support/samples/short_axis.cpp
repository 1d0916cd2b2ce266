#include "support/samples/measured_series.hpp"
#include "support/samples/sample_set.hpp"
#include "support/samples/surroundings.hpp"

namespace wayfolio::samples {
namespace {

LinearAxis model() {
    LinearAxis a;
    a.to = 1600;
    a.lead_um_per_m = 2.6;
    a.lead_bow_um = 1.8;
    a.periodic_um = 0.5;
    a.period_mm = 40;  // pitch of the ball screw
    a.reversal_start_um = -0.9;
    a.reversal_end_um = -2.4;
    a.growth_um_per_m = 0.6;
    a.length_noise_um = 0.22;
    a.dip_um = 3.8;
    a.dip_at = 900;
    a.dip_half_width = 420;
    a.side_bow_um = 2.4;
    a.side_wave_um = 0.5;
    a.twist_urad = 11;
    a.beam_y_um_per_m = 0.9;
    a.beam_z_um_per_m = -1.3;
    a.side_noise_um = 0.18;
    a.side_reversal_um = 0.4;
    a.angle_noise_urad = 0.35;
    a.angle_reversal_urad = 0.7;
    return a;
}

Json stated(const std::string& series, const std::string& parameter, double expanded, const std::string& unit) {
    return {{"series", series}, {"parameter", parameter}, {"expanded", expanded}, {"unit", unit}, {"coverage_factor", 2}};
}

Json series_of_short_axis() {
    const LinearAxis axis = model();
    Noise noise(1600);
    RunPlan plan;
    plan.targets = random_targets(axis, 13, noise);
    plan.minutes_per_run = 3;
    const std::string specification = "purchase specification, clause 4";
    Json exx = measured_series(axis, "EXX", "as-found", plan, noise);
    exx["runs"][3]["deviations"][7] = nullptr;  // the beam was interrupted and the reading not repeated
    Json& touched = exx["runs"][6];
    touched["deviations"][4] = shown(touched["deviations"][4].get<double>() + 6.3, 10);
    touched["excluded"] = Json::array({{{"target", 4}, {"reason", "crane passed over the machine"}}});
    exx["tolerances"] = {tolerance("A", 12, "um", specification), tolerance("E", 9, "um", specification),
                         tolerance("R", 5, "um", specification), tolerance("B", 3, "um", specification),
                         tolerance("M", 8, "um", specification)};
    exx["expansion_correction"] = {{"applied", true}, {"coefficient_um_per_m_K", 11.5}};
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
    Json list = {stated("x-exx-found", "A", 1.5, "um"), stated("x-exx-found", "E", 1.2, "um"),
                 stated("x-exx-found", "R", 0.9, "um"), stated("x-exx-found", "B", 0.6, "um"),
                 stated("x-exx-found", "M", 1.1, "um")};
    for (const char* series : {"x-eyx-found", "x-ezx-found"}) list.push_back(stated(series, "straightness", 0.9, "um"));
    for (const char* series : {"x-eax-found", "x-ebx-found", "x-ecx-found"}) list.push_back(stated(series, "angle", 1.6, "urad"));
    return list;
}

Json job_of_short_axis() {
    Json job = invented_job("WF-1001", "Geometric test of the X axis of a machining centre");
    job["measured"] = {{"from", "2026-05-11T08:20+02:00"}, {"to", "2026-05-11T09:20+02:00"}};
    job["issued"] = "2026-05-12";
    job["revision"] = 0;
    job["people"] = {{{"role", "measured by"}, {"name", "Field engineer 1"}},
                     {{"role", "approved by"}, {"name", "Head of laboratory"}}};
    job["method"] =
        "Work instruction 12: six errors of a linear axis by laser interferometer, in the manner of ISO 230-1:2012 and ISO "
        "230-2:2014";
    job["remarks"] = {"The six errors were read together; runs alternate between the two directions of approach.",
                      "One reading is missing (beam interrupted) and one is set aside (crane); both are named in the tables."};
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
            {"machine",
             invented_machine("machining centre",
                              Json::array({{{"name", "X"},
                                            {"kind", "linear"},
                                            {"moves", "tool"},
                                            {"sensors", {"X bed near", "X bed far"}},
                                            {"travel", {{"from", 0}, {"to", 1600}, {"unit", "mm"}}},
                                            {"expansion_um_per_m_K",
                                             {{"value", 11.5}, {"expanded_uncertainty", 1.5}, {"coverage_factor", 2}}}}}))},
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
