#include "support/samples/measured_series.hpp"
#include "support/samples/sample_set.hpp"
#include "support/samples/surroundings.hpp"

namespace wayfolio::samples {
namespace {

LinearAxis x_axis() {
    LinearAxis a;
    a.to = 800;
    a.lead_um_per_m = 9;
    a.lead_bow_um = 2;
    a.reversal_start_um = -1.1;
    a.reversal_end_um = -2.2;
    a.growth_um_per_m = 5.5;  // warms while it is measured: a hint
    a.length_noise_um = 0.25;
    a.dip_um = 6;
    a.dip_at = 350;
    a.dip_half_width = 300;
    a.side_bow_um = 1.6;
    a.beam_y_um_per_m = 7;
    a.side_noise_um = 0.2;
    a.side_reversal_um = 0.4;
    a.angle_noise_urad = 0.4;
    a.angle_reversal_urad = 0.6;
    return a;
}

LinearAxis y_axis() {
    LinearAxis a;
    a.to = 500;
    a.side_bow_um = 1.1;
    a.beam_y_um_per_m = -22;
    a.side_noise_um = 0.2;
    a.side_reversal_um = 0.3;
    return a;
}

/// Positioning of X with one slip of the hand left in: a hint, and nothing is removed for it.
Json positioning(const LinearAxis& axis, RunPlan plan, Noise& noise) {
    Json series = measured_series(axis, "EXX", "as-found", plan, noise);
    Json& slipped = series["runs"][4]["deviations"][3];
    slipped = shown(slipped.get<double>() + 5.6, 10);
    series["tolerances"] = {tolerance("A", 18, "um", "order, clause 2"), tolerance("B", 3, "um", "order, clause 2")};
    return series;
}

Json straightness(const LinearAxis& axis, const std::string& id, const std::string& error, const RunPlan& plan, Noise& noise) {
    Json series = measured_series(axis, "EYX", "as-found", plan, noise);
    series["id"] = id;
    series["error"] = error;
    series.erase("measurement_line");  // read against the square on the table, not on the line of the positioning
    return series;
}

Json series_of_two_axes() {
    const LinearAxis x = x_axis(), y = y_axis();
    Noise noise(800500);
    RunPlan plan;
    plan.day = "2026-06-09";
    plan.targets = {0, 87, 205, 318, 420, 541, 672, 800};
    plan.minutes_per_run = 3;
    Json list = Json::array({positioning(x, plan, noise)});
    plan.runs_each_way = 3;
    plan.start_minute = 9 * 60 + 10;
    list.push_back(measured_series(x, "EBX", "as-found", plan, noise));
    plan.start_minute = 9 * 60 + 35;
    list.push_back(straightness(x, "x-eyx-found", "EYX", plan, noise));
    plan.targets = {0, 90, 180, 275, 390, 500};
    plan.start_minute = 10 * 60;
    list.push_back(straightness(y, "y-exy-found", "EXY", plan, noise));
    return list;
}

Json offset_check(const std::string& name, const std::string& axis, double at, double reading, double at_most) {
    return {{"name", name},       {"axis", axis}, {"position", plain_number(at)}, {"reading", reading},
            {"at_most", at_most}, {"unit", "mm"}, {"basis", "common practice"}};
}

/// The beam along X stands askew by more than the uncertainty allows; that along Y was read too coarsely to tell.
Json setup_of_two_axes() {
    return {
        {"checks",
         {offset_check("beam offset, near end", "X", 0, 0.12, 1.5),
          offset_check("beam offset, far end", "X", 800, 1.31, 1.5),
          offset_check("beam offset, near end", "Y", 0, 0.5, 0.5),
          offset_check("beam offset, far end", "Y", 500, 0.5, 0.5),
          {{"name", "signal over the travel, lowest"},
           {"axis", "X"},
           {"reading", 57},
           {"at_least", 60},
           {"unit", "percent"},
           {"basis", "instrument manual"}},
          {{"name", "square warmed with the machine"}, {"done", true}, {"basis", "work instruction 18"}}}},
        {"measurement_lines", Json::array({{{"axis", "X"}, {"at", {{"Y", 250}, {"Z", -300}}}, {"offset_to_tool_point_mm", {0, 0, 210}}}})},
        {"feed_mm_per_min", 3000},
        {"dwell_s", 3},
        {"warm_up", "10 strokes over the whole travel"}};
}

Json axis(const std::string& name, double to) {
    return {
        {"name", name}, {"kind", "linear"}, {"moves", "workpiece"}, {"travel", {{"from", 0}, {"to", plain_number(to)}, {"unit", "mm"}}}};
}

Json job_of_two_axes() {
    Json job = invented_job("WF-1805", "Squareness error of X and Y and positioning of X, vertical machining centre",
                            {"Example Tooling Company", "9 Sample Square", "00000 Example Bay", "At the customer's, tool room"});
    job["measured"] = {{"from", "2026-06-09T08:20+02:00"}, {"to", "2026-06-09T10:30+02:00"}};
    job["issued"] = "2026-06-10";
    job["revision"] = 0;
    job["people"] = {{{"role", "measured by"}, {"name", "Field engineer 2"}}, {{"role", "approved by"}, {"name", "Head of laboratory"}}};
    job["method"] = "Work instruction 18: two straightness lines against one reference square, in the manner of ISO 230-1:2012";
    job["remarks"] = {"Every reading of this document is invented; it shows a machine that was measured too soon after its start."};
    return job;
}

Json contributors_of_two_axes() {
    return {{{"name", "set-up repeatability"},
             {"applies_to", {"EXX", "EYX", "EXY"}},
             {"standard", 0.3},
             {"unit", "um"},
             {"distribution", "normal"},
             {"degrees_of_freedom", 8},
             {"basis", "type A, 9 set-ups"}}};
}

}  // namespace

Json two_axes() {
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job", job_of_two_axes()},
            {"machine", invented_machine({"vertical machining centre", "Demonstrator V", "D-0033"}, {axis("X", 800), axis("Y", 500)})},
            {"instruments", invented_instruments()},
            {"setup", setup_of_two_axes()},
            {"series", series_of_two_axes()},
            {"evaluation",
             {{"standard", "ISO 230-2:2014"},
              {"straightness_reference", "least-squares"},
              {"decision_rule", "guard-band-both-sides"},
              {"coverage", "k2"},
              {"hints", true}}},
            {"uncertainty", {{"contributors", contributors_of_two_axes()}}},
            {"squareness", Json::array({{{"axes", {"X", "Y"}},
                                         {"series", {"x-eyx-found", "y-exy-found"}},
                                         {"square",
                                          {{"error_urad", 4.8},
                                           {"expanded_uncertainty_urad", 1},
                                           {"coverage_factor", 2},
                                           {"serial", "Q-4"},
                                           {"certificate", "EX-2026-0107"}}},
                                         {"tolerance", {{"limit", 20}, {"unit", "urad"}, {"source", "order, clause 3"}}}}})},
            {"compensation", Json::array({{{"axis", "X"},
                                           {"series", "x-exx-found"},
                                           {"point_interval_mm", 100},
                                           {"zero_at_mm", 0},
                                           {"rounded_to_um", 0.5},
                                           {"table", "both"}}})}};
}

}  // namespace wayfolio::samples
