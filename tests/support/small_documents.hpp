#pragma once
#include "support/run.hpp"

#include <nlohmann/json.hpp>

#include <cmath>
#include <string>
#include <vector>

/// Small documents, one for each state that changes a drawing: few targets, so that a dump of what is drawn can be read.
namespace wayfolio::testing::small {

using Json = nlohmann::json;

/// A list of one: braces alone would be taken for the object itself by some compilers.
inline Json list(Json one) { return Json::array({std::move(one)}); }

inline Json document(Json series) {
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job", {{"data_notice", "Invented data for demonstration"}}},
            {"series", std::move(series)}};
}

using Readings = std::vector<std::vector<Json>>;

inline Json runs_each_way(const Readings& positive, const Readings& negative) {
    Json runs = Json::array();
    for (std::size_t i = 0; i < std::max(positive.size(), negative.size()); ++i) {
        if (i < positive.size()) runs.push_back({{"approach", "positive"}, {"deviations", positive[i]}});
        if (i < negative.size()) runs.push_back({{"approach", "negative"}, {"deviations", negative[i]}});
    }
    return runs;
}

/// Positioning of X over 400 mm: three runs each way whose spread differs from target to target and between the directions, and a
/// reversal that is negative but for the third target.
inline Json x_series() {
    return {{"id", "x"},
            {"error", "EXX"},
            {"unit", "um"},
            {"position_unit", "mm"},
            {"targets", {0, 100, 190, 310, 400}},
            {"runs", runs_each_way({{0.2, 1.9, 3.1, 2.0, 4.4}, {0.5, 2.3, 2.6, 2.4, 4.0}, {-0.1, 2.0, 3.3, 1.6, 4.9}},
                                   {{1.4, 3.8, 2.2, 3.9, 5.1}, {1.0, 3.1, 2.6, 4.4, 5.6}, {1.9, 3.3, 2.0, 4.1, 4.6}})}};
}

inline Json tolerance(const std::string& parameter, double limit, const std::string& unit = "um") {
    return {{"parameter", parameter}, {"limit", limit}, {"unit", unit}, {"source", "order"}};
}

inline Json with_tolerances(Json series, const Json& tolerances) {
    series["tolerances"] = tolerances;
    return series;
}

inline Json positioning() { return document(list(with_tolerances(x_series(), list(tolerance("A", 9))))); }

inline Json without_approach(Json json, const std::string& approach) {
    for (Json& series : json["series"])
        std::erase_if(series["runs"].get_ref<Json::array_t&>(), [&](const Json& run) { return run["approach"] == approach; });
    return json;
}

inline Json one_run_each_way() {
    Json json = document(list(x_series()));
    json["series"][0]["runs"].get_ref<Json::array_t&>().resize(2);
    return json;
}

/// The second target lacks a reading, the fourth has none in the positive direction, and of two excluded readings one lies far
/// off the scale.
inline Json missing_and_excluded() {
    Json json = positioning();
    Json& runs = json["series"][0]["runs"];
    runs[0]["deviations"][1] = nullptr;
    for (const std::size_t positive : {0U, 2U, 4U}) runs[positive]["deviations"][3] = nullptr;
    runs[1]["deviations"][4] = 90.5;
    runs[1]["excluded"] = list({{"target", 4}, {"reason", "door opened"}});
    runs[2]["excluded"] = list({{"target", 2}, {"reason", "crane passed"}});
    return json;
}

/// Two targets in 29 runs of one direction: two lines of readings each.
inline Json many_runs() {
    Json json = positioning();
    Json& series = json["series"][0];
    series["targets"] = {0, 100};
    Json run = series["runs"][0];
    series["runs"] = Json::array();
    for (int i = 0; i < 29; ++i) {
        run["deviations"] = {i % 7 * 0.1, 1 + i % 5 * 0.2};
        series["runs"].push_back(run);
    }
    return json;
}

/// The same in inches and microinches, targets running down, target minus actual.
inline Json inches() {
    Json series = {{"id", "x"},
                   {"error", "EXX"},
                   {"unit", "uin"},
                   {"position_unit", "in"},
                   {"sign", "target-minus-actual"},
                   {"targets", {16, 12.1, 7.7, 4, 0}},
                   {"runs", runs_each_way({{-170, -80, -122, -75, -8}, {-158, -94, -103, -91, -20}},
                                          {{-200, -154, -87, -150, -55}, {-221, -173, -102, -122, -39}})},
                   {"tolerances", list(tolerance("A", 0.0003, "in"))}};
    return document(list(series));
}

inline Json rotary(const Json& targets, const Readings& positive, const Readings& negative) {
    Json json = document(list({{"id", "c"},
                               {"error", "ECC"},
                               {"unit", "arcsec"},
                               {"position_unit", "deg"},
                               {"targets", targets},
                               {"runs", runs_each_way(positive, negative)}}));
    json["machine"]["axes"] = list({{"name", "C"}, {"kind", "rotary"}, {"travel", {{"from", 0}, {"to", 360}, {"unit", "deg"}}}});
    return json;
}

/// Once round the circle.
inline Json turn() {
    return rotary({0, 72, 144, 216, 288}, {{0.4, 2.9, -1.5, -3.8, 1.2}, {0.9, 3.4, -1.2, -4.1, 0.6}},
                  {{1.6, 4.4, 0.2, -2.2, 1.9}, {1.1, 4.0, -0.4, -2.9, 2.6}});
}

/// Half of the circle, with a gap and an excluded reading.
inline Json half_turn() {
    Json json = rotary({0, 45, 90, 135, 180}, {{0.4, 2.9, nullptr, -3.8, 1.2}, {0.9, 3.4, nullptr, -4.1, 0.6}},
                       {{1.6, 4.4, 0.2, -2.2, 1.9}, {1.1, 4.0, -0.4, -2.9, 9.6}});
    json["series"][0]["runs"][3]["excluded"] = list({{"target", 4}, {"reason", "table touched"}});
    return json;
}

inline Json stated_only() {
    Json targets = Json::array();
    for (int i = 0; i < 5; ++i)
        targets.push_back({{"position", 100 * i},
                           {"mean_positive", (8 * i - 6) / 10.0},
                           {"mean_negative", (7 * i + 7) / 10.0},
                           {"s_positive", 0.4},
                           {"s_negative", 0.5}});
    return document(list({{"id", "x"},
                          {"error", "EXX"},
                          {"unit", "um"},
                          {"position_unit", "mm"},
                          {"stated", {{"A", 6.1}, {"R", 3.1}, {"B", 1.3}, {"targets", targets}}},
                          {"tolerances", list(tolerance("A", 10))}}));
}

/// Straightness in Y of X: a bow on a slope.
inline Json y_of_x() {
    return {{"id", "x-eyx"},
            {"error", "EYX"},
            {"unit", "um"},
            {"position_unit", "mm"},
            {"targets", {0, 100, 190, 310, 400}},
            {"runs", runs_each_way({{0.1, 3.2, 4.9, 5.4, 4.1}, {-0.2, 3.0, 5.3, 5.6, 4.0}},
                                   {{0.6, 3.9, 5.2, 6.3, 4.4}, {0.2, 3.5, 5.8, 5.9, 4.9}})}};
}

inline Json straightness() { return document(list(with_tolerances(y_of_x(), list(tolerance("straightness", 6))))); }

/// Straightness with a record taken on the fly.
inline Json with_trace() {
    Json json = document(list(y_of_x()));
    json["series"][0]["trace"] = {{"samples", {{0, 0.2}, {50, 1.4}, {100, 3.3}, {190, 5.0}, {250, 5.9}, {310, 5.5}, {400, 4.2}}},
                                  {"approach", "positive"}};
    return json;
}

inline Json angle_steps() {
    return document(list({{"id", "steps"},
                          {"kind", "steps"},
                          {"base_mm", 100},
                          {"error", "EZX"},
                          {"unit", "arcsec"},
                          {"position_unit", "mm"},
                          {"targets", {0, 100, 200, 300, 400}},
                          {"runs", runs_each_way({{2.5, 1.0, -0.5, -1.5}}, {{2.7, 1.1, -0.4, -1.6}})}}));
}

inline Json pitch_of_x() {
    return {{"id", "x-ebx"},
            {"error", "EBX"},
            {"unit", "urad"},
            {"position_unit", "mm"},
            {"targets", {0, 100, 190, 310, 400}},
            {"runs", runs_each_way({{0.4, 6.1, 8.8, 5.0, -2.2}, {0.0, 6.6, 9.3, 4.4, -2.9}},
                                   {{1.0, 7.2, 9.9, 5.8, -1.4}, {1.5, 6.8, 9.5, 6.1, -1.9}})}};
}

inline Json angle() { return document(list(with_tolerances(pitch_of_x(), list(tolerance("angle", 15, "urad"))))); }

/// Positioning and pitch of X measured 210 mm above the tool point.
inline Json tool_point() {
    Json positioning = x_series(), pitch = pitch_of_x();
    positioning["measurement_line"] = 0;
    pitch["measurement_line"] = 0;
    Json json = document(Json::array({positioning, pitch}));
    json["setup"]["measurement_lines"] =
        list({{"axis", "X"}, {"at", {{"Y", 250}, {"Z", -300}}}, {"offset_to_tool_point_mm", {0, 0, 210}}});
    return json;
}

/// The same where Z is upright, so that its measurement line can be drawn.
inline Json upright_tool_point() {
    Json json = tool_point();
    json["machine"]["vertical"] = "Z";
    return json;
}

/// Squareness of X and Y against a square; the line along Y rises by `along_y` µm/m.
inline Json squareness(double along_y) {
    Json y = {{"id", "y-exy"},        {"error", "EXY"}, {"unit", "um"}, {"position_unit", "mm"}, {"targets", {0, 100, 200, 300}},
              {"runs", Json::array()}};
    for (const char* approach : {"positive", "negative"}) {
        Json readings = Json::array();
        for (int i = 0; i < 4; ++i) readings.push_back(std::round(along_y * i) / 10 + (i % 2 == 0 ? 0.1 : -0.1));
        y["runs"].push_back({{"approach", approach}, {"deviations", readings}});
    }
    Json json = document(Json::array({y_of_x(), y}));
    json["squareness"] =
        list({{"axes", Json::array({"X", "Y"})},
              {"series", Json::array({"x-eyx", "y-exy"})},
              {"square", {{"error_urad", 0}, {"expanded_uncertainty_urad", 1}, {"coverage_factor", 2}, {"serial", "Q-4"}}},
              {"tolerance", {{"limit", 20}, {"unit", "urad"}, {"source", "order"}}}});
    return json;
}

/// As found out of its limit, as left within it: half of the found curve, and 2 µm lower.
inline Json found_and_left() {
    Json found = with_tolerances(x_series(), list(tolerance("A", 6))), left = found;
    found["state"] = "as-found";
    left["state"] = "as-left";
    left["id"] = "x-left";
    for (Json& run : left["runs"])
        for (Json& reading : run["deviations"]) reading = std::round(reading.get<double>() * 50 - 200) / 100;
    return document(Json::array({found, left}));
}

inline Json compensated(const char* kind) {
    Json json = document(list(x_series()));
    json["compensation"] =
        list({{"axis", "X"}, {"series", "x"}, {"point_interval_mm", 100}, {"zero_at_mm", 0}, {"rounded_to_um", 0.1}, {"table", kind}});
    return json;
}

inline std::string clock(int minutes) {
    const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return "2026-05-11T" + two(minutes / 60) + ":" + two(minutes % 60) + "Z";
}

/// Two hours of air, pressure, humidity and two sensors, with a gap in the air; six runs in the middle of it.
inline Json surroundings() {
    Json json = document(list(x_series()));
    Json& runs = json["series"][0]["runs"];
    for (std::size_t i = 0; i < runs.size(); ++i) {
        runs[i]["started"] = clock(500 + 10 * static_cast<int>(i));
        runs[i]["ended"] = clock(508 + 10 * static_cast<int>(i));
    }
    json["machine"]["axes"] = list({{"name", "X"},
                                    {"kind", "linear"},
                                    {"sensors", Json::array({"bed", "scale"})},
                                    {"travel", {{"from", 0}, {"to", 400}, {"unit", "mm"}}}});
    json["environment"] = {{"reference_temperature_C", 20}, {"samples", Json::array()}};
    for (int i = 0; i < 7; ++i) {
        Json sample = {{"time", clock(480 + 20 * i)},
                       {"air_C", (201 + 2 * i) / 10.0},
                       {"pressure_hPa", (10084 - 3 * i) / 10.0},
                       {"humidity_percent", 44 + (i % 3)},
                       {"machine_C", {{"bed", (204 + i) / 10.0}, {"scale", (2130 - 15 * i) / 100.0}}}};
        if (i == 3) sample.erase("air_C");
        json["environment"]["samples"].push_back(sample);
    }
    return json;
}

/// The value of A is 6.5 µm with a stated U: `limit` and `rule` choose the outcome.
inline Json judged(const char* rule, double limit, double expanded = 0.8) {
    Json json = document(list(with_tolerances(x_series(), list(tolerance("A", limit)))));
    json["evaluation"] = {{"decision_rule", rule}};
    if (expanded > 0)
        json["uncertainty"]["stated"] =
            list({{"series", "x"}, {"parameter", "A"}, {"expanded", expanded}, {"unit", "um"}, {"coverage_factor", 2}});
    return json;
}

}  // namespace wayfolio::testing::small
