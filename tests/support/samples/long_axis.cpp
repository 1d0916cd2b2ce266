#include "support/samples/measured_series.hpp"
#include "support/samples/sample_set.hpp"
#include "support/samples/surroundings.hpp"

namespace wayfolio::samples {
namespace {

const std::string measuring_day = "2026-04-21";

LinearAxis as_found() {
    LinearAxis a;
    a.to = 6400;
    a.lead_um_per_m = 5.2;
    a.lead_bow_um = 4.5;
    a.periodic_um = 0.7;
    a.period_mm = 340;
    a.reversal_start_um = -2.8;
    a.reversal_end_um = -7.2;
    a.growth_um_per_m = 0.5;
    a.length_noise_um = 0.45;
    a.dip_um = 17;
    a.dip_at = 2600;
    a.dip_half_width = 1150;
    a.side_bow_um = 8.5;
    a.side_wave_um = 1.6;
    a.twist_urad = 34;
    a.beam_y_um_per_m = 1.4;
    a.beam_z_um_per_m = -2.2;
    a.side_noise_um = 0.5;
    a.side_reversal_um = 1.1;
    a.angle_noise_urad = 0.5;
    a.angle_reversal_urad = 1.4;
    return a;
}

/// Levelled, the scale compensated, the reversal error of the drive reduced: the periodic error and the side bow stay.
LinearAxis as_left() {
    LinearAxis a = as_found();
    a.lead_um_per_m = 0.5;
    a.lead_bow_um = 0.9;
    a.reversal_start_um = -0.7;
    a.reversal_end_um = -1.9;
    a.growth_um_per_m = 0.35;
    a.dip_um = 5.5;
    a.side_bow_um = 6.4;
    a.twist_urad = 15;
    a.beam_y_um_per_m = -0.8;
    a.beam_z_um_per_m = 0.6;
    return a;
}

/// One quantity after another, each with the instrument made for it; the next is set up while nothing is read.
void add_state(Json& list, const LinearAxis& axis, const std::string& state, RunPlan plan, Noise& noise) {
    const std::string specification = "acceptance agreement, sheet 3";
    for (const char* symbol : {"EXX", "EYX", "EZX", "EAX", "EBX", "ECX"}) {
        Json series = measured_series(axis, symbol, state, plan, noise);
        plan.start_minute += 40;
        if (series["error"] == "EXX") {
            series["tolerances"] = {tolerance("A", 12, "um", specification), tolerance("E", 13, "um", specification),
                                    tolerance("R", 9, "um", specification), tolerance("B", 3, "um", specification)};
            series["expansion_correction"] = {{"applied", true}, {"coefficient_um_per_m_K", 11.7}};
            // The instrument was given the air once, before each state.
            const bool found = state == "as-found";
            series["air_correction"] = {{"applied", true},
                                        {"equation", "Edlen"},
                                        {"air_C", found ? 20.5 : 21},
                                        {"pressure_hPa", found ? 1008.2 : 1007.7},
                                        {"humidity_percent", found ? 44 : 42.2}};
            series["dead_path_mm"] = 180;
        } else if (series["unit"] == "um") {
            series["instrument"] = "line";
            series["tolerances"] =
                Json::array({tolerance("straightness", symbol == std::string("EZX") ? 8 : 10, "um", specification)});
            series["tolerances"].push_back(
                {{"parameter", "local"}, {"length_mm", 300}, {"limit", 2.5}, {"unit", "um"}, {"source", specification}});
        } else {
            const double limit = series["error"] == "EAX" ? 16 : series["error"] == "ECX" ? 10 : 20;
            series["tolerances"] = Json::array({tolerance("angle", limit, "urad", specification)});
            if (series["error"] != "EAX") series["instrument"] = "collimator";
        }
        list.push_back(std::move(series));
    }
}

Json series_of_long_axis() {
    Noise noise(6400);
    RunPlan plan;
    plan.targets = random_targets(as_found(), 27, noise);
    plan.day = measuring_day;
    plan.start_minute = 7 * 60 + 30;
    plan.minutes_per_run = 3;
    Json list = Json::array();
    add_state(list, as_found(), "as-found", plan, noise);
    plan.start_minute = 12 * 60 + 40;
    add_state(list, as_left(), "as-left", plan, noise);
    Json& cut = list[6]["runs"][4];  // one reading of the as-left positioning is excluded
    cut["deviations"][19] = shown(cut["deviations"][19].get<double>() - 9.2, 10);
    cut["excluded"] = Json::array({{{"target", 19}, {"reason", "door of the hall opened"}}});
    return list;
}

/// A contributor known within limits, all values alike.
Json within(const std::string& name, const Json& applies_to, double half_width, const std::string& unit,
            const std::string& basis) {
    return {{"name", name}, {"applies_to", applies_to},      {"half_width", half_width},
            {"unit", unit}, {"distribution", "rectangular"}, {"basis", basis}};
}

/// A contributor found by repeating.
Json repeated(const std::string& name, const Json& applies_to, double standard, const std::string& unit, int times,
              const std::string& of) {
    return {{"name", name},
            {"applies_to", applies_to},
            {"standard", standard},
            {"unit", unit},
            {"distribution", "normal"},
            {"degrees_of_freedom", times - 1},
            {"basis", "type A, " + std::to_string(times) + " " + of}};
}

Json contributors_of_long_axis() {
    const Json lengths = Json::array({"EXX"}), sides = {"EYX", "EZX"}, angles = {"EAX", "EBX", "ECX"};
    const std::string certificate = "certificate EX-2026-0110: ";
    Json air = Json::array({within("air temperature sensor", lengths, 0.05, "um/m", certificate + "0.05 K, 0.95 µm/m per K"),
                            within("air pressure sensor", lengths, 0.04, "um/m", certificate + "0.15 hPa, 0.27 µm/m per hPa"),
                            within("humidity sensor", lengths, 0.02, "um/m", certificate + "2.3 %, 0.0085 µm/m per %")});
    Json list = Json::array();
    for (Json& sensor : air) {
        sensor["correlated"] = "air";
        list.push_back(std::move(sensor));
    }
    list.push_back(within("machine temperature sensors", lengths, 0.18, "um/m", certificate + "0.015 K, 11.7 µm/m per K"));
    list.push_back(within("cosine error after alignment", lengths, 0.1, "um", "beam offsets at both ends"));
    list.back()["influence"] = "cosine";
    list.push_back(repeated("set-up repeatability", lengths, 0.3, "um", 9, "set-ups"));
    list.push_back(repeated("wander of the straight line in air", sides, 0.35, "um", 12, "records"));
    list.push_back(repeated("mounting of mirror and levels", angles, 0.4, "urad", 9, "set-ups"));
    return list;
}

Json setup_of_long_axis() {
    return {{"checks",
             {{{"name", "beam offset, near end"},
               {"axis", "X"},
               {"position", 0},
               {"reading", 0.2},
               {"at_most", 0.5},
               {"unit", "mm"},
               {"basis", "common practice"}},
              {{"name", "beam offset, far end"},
               {"axis", "X"},
               {"position", 6400},
               {"reading", 0.6},
               {"at_most", 1},
               {"unit", "mm"},
               {"basis", "common practice"}},
              {{"name", "signal over the travel, lowest"},
               {"axis", "X"},
               {"reading", 71},
               {"at_least", 60},
               {"unit", "percent"},
               {"basis", "instrument manual"}},
              {{"name", "optical path shielded from draught"}, {"axis", "X"}, {"done", true}, {"basis", "common practice"}},
              {{"name", "warm-up, 20 strokes over the whole travel"},
               {"axis", "X"},
               {"done", true},
               {"basis", "agreed with the customer"}}}},
            {"measurement_lines",
             Json::array({{{"axis", "X"}, {"at", {{"Y", 900}, {"Z", -250}}}, {"offset_to_tool_point_mm", {0, 0, 150}}}})},
            {"feed_mm_per_min", 6000},
            {"dwell_s", 4},
            {"warm_up", "20 strokes over the whole travel, 35 minutes"}};
}

Json job_of_long_axis() {
    Json job = invented_job("WF-2041", "Geometric calibration of a slideway grinding machine, wheelhead carriage X as found and as left",
                            {"Example Guideway Works", "14 Sample Road", "00000 Exampleford", "At the customer's, grinding hall"});
    job["measured"] = {{"from", clock_time(measuring_day, 7 * 60 + 20)}, {"to", clock_time(measuring_day, 16 * 60 + 50)}};
    job["issued"] = "2026-04-23";
    job["revision"] = 1;
    job["replaces"] = {{"number", "WF-2041"},
                       {"revision", 0},
                       {"issued", "2026-04-22"},
                       {"reason", "set-up repeatability added to the uncertainty budget"}};
    job["people"] = {{{"role", "measured by"}, {"name", "Field engineer 1"}},
                     {{"role", "evaluated by"}, {"name", "Field engineer 2"}},
                     {{"role", "approved by"}, {"name", "Head of laboratory"}}};
    job["method"] =
        "Work instruction 14: quantities of a long linear axis one after another, positioning by laser interferometer, straightness by "
        "alignment laser, pitch and yaw by autocollimator, roll by electronic levels, in the manner of ISO 230-1:2012 and ISO 230-2:2014";
    job["remarks"] = {
        "Five runs each way over 6.4 m were agreed with the customer in place of the standard's single run on long axes.",
        "Between the two states the bed was levelled at the middle supports and the scale compensated at 200 mm spacing.",
        "What to do next: check the levelling again after four weeks, when the foundation has settled; the side bow of the guide "
        "needs the machine builder."};
    return job;
}

Json instruments_of_long_axis() {
    return {
        invented_instrument({"laser", "laser interferometer", "Laser two", "L-131", 13},
                            {{"positioning", {{"um", 0.1}, {"um_per_m", 0.4}}}}),
        invented_instrument({"line", "alignment laser with two-axis position detector", "Line one", "P-017", 16},
                            {{"straightness", {{"um", 0.4}, {"um_per_m", 0.1}}}}),
        invented_instrument({"collimator", "two-axis electronic autocollimator", "Collimator one", "K-044", 12},
                            {{"angle", {{"urad", 0.6}, {"urad_per_m", 0.1}}}}),
        invented_instrument({"level", "pair of electronic levels", "Level one", "N-052", 9}, {{"angle", {{"urad", 1}, {"urad_per_m", 0}}}}),
        invented_instrument({"air", "air and material temperature station", "Station one", "S-031", 10}, Json::object())};
}

/// One working day in the hall.
Surroundings day_of_long_axis() {
    Surroundings around;
    around.day = measuring_day;
    around.start_minute = 7 * 60 + 20;
    around.end_minute = 16 * 60 + 50;
    return around;
}

}  // namespace

Json long_axis() {
    return {
        {"format", "wayfolio-result"},
        {"version", 1},
        {"job", job_of_long_axis()},
        {"machine",
         invented_machine(
             {"slideway grinding machine", "Demonstrator L", "D-0012"},
             Json::array({{{"name", "X"},
                           {"kind", "linear"},
                           {"moves", "tool"},
                           {"sensors", {"X bed near", "X bed far"}},
                           {"travel", {{"from", 0}, {"to", 6400}, {"unit", "mm"}}},
                           {"expansion_um_per_m_K", {{"value", 11.7}, {"expanded_uncertainty", 1}, {"coverage_factor", 2}}}}}))},
        {"instruments", instruments_of_long_axis()},
        {"environment", environment(day_of_long_axis(), 6401)},
        {"setup", setup_of_long_axis()},
        {"series", series_of_long_axis()},
        {"evaluation",
         {{"standard", "ISO 230-2:2014"},
          {"straightness_reference", "least-squares"},
          {"local_straightness_mm", {300, 1000}},
          {"decision_rule", "guard-band-both-sides"},
          {"coverage", "k2"},
          {"hints", true},
          {"agreed", Json::array({"five runs over 2 m"})}}},
        {"uncertainty", {{"contributors", contributors_of_long_axis()}}},
        {"drift", Json::array({drift_record("X", 3200, measuring_day, 11 * 60 + 45, 45, 0.7, 6402)})},
        {"compensation", Json::array({{{"axis", "X"},
                                       {"series", "x-exx-found"},
                                       {"point_interval_mm", 200},
                                       {"zero_at_mm", 0},
                                       {"rounded_to_um", 1},
                                       {"table", "bidirectional"}}})}};
}

}  // namespace wayfolio::samples
