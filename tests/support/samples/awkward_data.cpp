#include "support/samples/awkward_parts.hpp"

/// Documents whose readings are unusual.
namespace wayfolio::samples {

Json many_targets_one_run() {
    Noise noise(14000);
    LinearAxis axis = middling_axis(14000);
    RunPlan plan;
    plan.targets = random_targets(axis, 57, noise);
    plan.runs_each_way = 1;
    Json series = bare_series(axis, "EXX", "x-exx", plan, noise);
    series["tolerances"] = {tolerance("E", 60, "um", "order"), tolerance("A", 70, "um", "order")};
    Json document = bare_document("AW-01", "57 targets over 14 m, one run in each approach", Json::array({std::move(series)}));
    document["machine"]["axes"] =
        Json::array({{{"name", "X"}, {"kind", "linear"}, {"travel", {{"from", 0}, {"to", 14000}, {"unit", "mm"}}}}});
    return document;
}

Json one_direction() {
    Noise noise(2);
    RunPlan plan;
    plan.targets = {0, 100, 210, 290, 400, 500};
    plan.negative_too = false;
    Json list = Json::array();
    for (const char* symbol : {"EXX", "EYX", "ECX"})
        list.push_back(bare_series(middling_axis(500), symbol, std::string("one-way-") + symbol, plan, noise));
    return bare_document("AW-02", "Approached from one approach only", std::move(list));
}

Json all_equal() {
    Json runs = Json::array();
    for (int run = 0; run < 6; ++run)
        runs.push_back({{"approach", run % 2 == 0 ? "positive" : "negative"}, {"deviations", Json(std::vector<double>(5, 1.5))}});
    return bare_document("AW-03", "All readings equal",
                         Json::array({{{"id", "equal"},
                                       {"error", "EXX"},
                                       {"unit", "um"},
                                       {"position_unit", "mm"},
                                       {"targets", {0, 100, 200, 300, 400}},
                                       {"runs", std::move(runs)}}}));
}

Json no_limits() {
    Noise noise(4);
    RunPlan plan;
    plan.targets = {0, 55, 118, 163, 220, 300};
    return bare_document("AW-04", "No limits", Json::array({bare_series(middling_axis(300), "EXX", "x", plan, noise)}));
}

Json positive_and_negative_reversal() {
    Noise noise(9);
    LinearAxis axis = middling_axis(800);
    axis.reversal_start_um = -6;
    axis.reversal_end_um = 4;
    RunPlan plan;
    plan.targets = {0, 90, 210, 310, 390, 510, 620, 700, 800};
    return bare_document("AW-09", "A reversal that changes its sign on the way, negative on the whole",
                         Json::array({bare_series(axis, "EXX", "x", plan, noise)}));
}

Json inches_descending() {
    // Targets run down from 30 in, deviations in microinches and as target minus actual.
    Noise noise(254);
    const LinearAxis axis = middling_axis(762);
    RunPlan plan;
    plan.targets = {30, 26.5, 22.3, 18, 14.1, 9.8, 5.2, 0};
    plan.runs_each_way = 3;
    plan.steps_per_unit = 1;
    const double microinch_per_um = 1 / 0.0254;
    Json runs = measured_runs(
        plan,
        [&](const Visit& v) {
            return -microinch_per_um * true_deviation(axis, "EXX", {v.x * 25.4, v.positive, v.elapsed});
        },
        microinch_per_um * axis.length_noise_um, noise);
    return bare_document(
        "AW-12", "Inches, microinches, descending targets, target minus actual",
        Json::array({{{"id", "x-inch"},
                      {"error", "EXX"},
                      {"unit", "uin"},
                      {"position_unit", "in"},
                      {"sign", "target-minus-actual"},
                      {"targets", plain_numbers(plan.targets)},
                      {"runs", std::move(runs)},
                      {"tolerances", {tolerance("A", 0.0004, "in", "drawing"), tolerance("B", 3, "um", "drawing")}}}}));
}

Json two_turns() {
    Noise noise(720);
    RunPlan plan;
    for (int i = 0; i <= 18; ++i) plan.targets.push_back(40.0 * i);
    plan.runs_each_way = 1;
    Json runs = measured_runs(
        plan, [](const Visit& v) { return 2 * std::sin(v.x * 3.14159265358979323846 / 180) + (v.positive ? -0.5 : 0.5); }, 0.2,
        noise);
    Json document = bare_document("AW-17", "A rotary axis over two turns, one run in each approach",
                                  Json::array({{{"id", "c"},
                                                {"error", "ECC"},
                                                {"unit", "arcsec"},
                                                {"position_unit", "deg"},
                                                {"targets", plain_numbers(plan.targets)},
                                                {"runs", std::move(runs)}}}));
    document["machine"]["axes"] =
        Json::array({{{"name", "C"}, {"kind", "rotary"}, {"travel", {{"from", 0}, {"to", 720}, {"unit", "deg"}}}}});
    return document;
}

Json many_targets_many_runs() {
    Noise noise(200);
    const LinearAxis axis = middling_axis(5000);
    RunPlan plan;
    plan.targets = random_targets(axis, 200, noise);
    plan.runs_each_way = 10;
    plan.minutes_per_run = 1;
    return bare_document("AW-19", "200 targets, 10 runs in each approach",
                         Json::array({bare_series(axis, "EXX", "x", plan, noise)}));
}

}  // namespace wayfolio::samples
