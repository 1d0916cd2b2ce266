#include "support/samples/awkward_parts.hpp"

#include <utility>

/// Documents with kinds of series that the shown samples lack, and the list of all awkward ones.
namespace wayfolio::samples {

Json eight_series() {
    Noise noise(8);
    RunPlan plan;
    plan.targets = {0, 130, 240, 370, 500};
    plan.runs_each_way = 3;
    Json list = Json::array();
    for (const char* symbol : {"EXX", "EYX", "EZX", "EAX", "EBX", "ECX"})
        list.push_back(bare_series(middling_axis(500), symbol, std::string("x-") + symbol, plan, noise));
    Json left = bare_series(middling_axis(500), "EXX", "x-EXX-left", plan, noise);
    left["state"] = "as-left";
    list.push_back(std::move(left));
    Json settled = bare_series(middling_axis(500), "EXX", "x-EXX-settled", plan, noise);
    settled["state"] = "after a week";
    list.push_back(std::move(settled));
    return bare_document("AW-08", "Eight series", std::move(list));
}

Json two_axes_and_square() {
    Noise noise(14);
    LinearAxis x = middling_axis(800), y = middling_axis(500);
    x.beam_y_um_per_m = 6;    // the square lies so against the X axis
    y.beam_y_um_per_m = -17;  // and the Y axis so against the square
    RunPlan plan;
    plan.targets = {0, 100, 200, 300, 400, 500, 600, 700, 800};
    plan.runs_each_way = 3;
    Json list = Json::array({bare_series(x, "EYX", "x-eyx", plan, noise)});
    plan.targets = {0, 100, 200, 300, 400, 500};
    Json along_y = bare_series(y, "EYX", "y-exy", plan, noise);
    along_y["error"] = "EXY";
    list.push_back(std::move(along_y));
    Json document = bare_document("AW-14", "Squareness error of X and Y against a reference square", std::move(list));
    document["squareness"] = Json::array(
        {{{"axes", {"X", "Y"}},
          {"series", {"x-eyx", "y-exy"}},
          {"square", {{"error_urad", 4.8}, {"expanded_uncertainty_urad", 1}, {"coverage_factor", 2}, {"serial", "Q-4"}}},
          {"tolerance", {{"limit", 20}, {"unit", "urad"}, {"source", "order"}}}}});
    return document;
}

Json angle_steps() {
    return bare_document("AW-15", "Straightness by angle steps with a level of 100 mm base",
                         Json::array({{{"id", "steps"},
                                       {"kind", "steps"},
                                       {"base_mm", 100},
                                       {"error", "EZX"},
                                       {"unit", "arcsec"},
                                       {"position_unit", "mm"},
                                       {"targets", {0, 100, 200, 300, 400, 500, 600}},
                                       {"runs",
                                        {{{"approach", "positive"}, {"deviations", {2.5, 1.0, -0.5, -1.5, -0.5, 1.5}}},
                                         {{"approach", "negative"}, {"deviations", {2.7, 1.1, -0.4, -1.6, -0.3, 1.3}}}}}}}));
}

Json stated_only() {
    Json targets = Json::array();
    for (int i = 0; i < 6; ++i)
        targets.push_back({{"position", 100 * i},
                           {"mean_positive", shown(0.8 * i - 0.6, 10)},
                           {"mean_negative", shown(0.8 * i + 0.7, 10)},
                           {"s_positive", 0.4},
                           {"s_negative", 0.5}});
    return bare_document(
        "AW-16", "Stated values only, no readings",
        Json::array({{{"id", "stated"},
                      {"error", "EXX"},
                      {"unit", "um"},
                      {"position_unit", "mm"},
                      {"stated", {{"A", number_as_written("7.10")}, {"R", 3.1}, {"B", 1.3}, {"targets", std::move(targets)}}},
                      {"tolerances", Json::array({tolerance("A", 10, "um", "order")})}}}));
}

namespace {

/// Three runs each way over 400 mm with A 6.5, E 4.9, R 3.4, B 2.1 and M 4.0 µm, or all of it `times` as large.
Json judged_series(const std::string& id, const std::string& state, double times, Json tolerances) {
    const std::vector<std::vector<double>> positive{{0.2, 1.9, 3.1, 2.0, 4.4}, {0.5, 2.3, 2.6, 2.4, 4.0}, {-0.1, 2.0, 3.3, 1.6, 4.9}},
        negative{{1.4, 3.8, 2.2, 3.9, 5.1}, {1.0, 3.1, 2.6, 4.4, 5.6}, {1.9, 3.3, 2.0, 4.1, 4.6}};
    Json runs = Json::array();
    for (const auto& [approach, readings] : {std::pair("positive", positive), std::pair("negative", negative)})
        for (const auto& run : readings) {
            Json deviations = Json::array();
            for (const double reading : run) deviations.push_back(shown(times * reading, 10));
            runs.push_back({{"approach", approach}, {"deviations", std::move(deviations)}});
        }
    return {{"id", id},         {"error", "EXX"},           {"state", state}, {"unit", "um"}, {"position_unit", "mm"},
            {"targets", {0, 100, 190, 310, 400}}, {"runs", std::move(runs)}, {"tolerances", std::move(tolerances)}};
}

Json stated_U(const std::string& series, const std::string& parameter, double expanded) {
    return {{"series", series}, {"parameter", parameter}, {"expanded", expanded}, {"unit", "um"}, {"coverage_factor", 2}};
}

Json limits_of_position(double A, double E, double R, double B) {
    return Json::array({tolerance("A", A, "um", "order"), tolerance("E", E, "um", "order"), tolerance("R", R, "um", "order"),
                        tolerance("B", B, "um", "order")});
}

Json judged_document(const std::string& number, const std::string& rule, Json series, Json uncertainties) {
    Json document = bare_document(number, "Every verdict that the rule " + rule + " can come to", std::move(series));
    document["evaluation"] = {{"decision_rule", rule}};
    document["uncertainty"] = {{"stated", std::move(uncertainties)}};
    return document;
}

}  // namespace

/// As left inside, not accepted, outside and without U; as found all outside. Straightness Y was measured as found only, Z is stated
/// without a reading or a target, and pitch has no limit.
Json outcomes_with_guard_band() {
    Noise noise(22);
    RunPlan plan;
    plan.targets = {0, 100, 200, 300, 400};
    plan.runs_each_way = 2;
    Json found_only = bare_series(middling_axis(400), "EYX", "x-eyx-found", plan, noise);
    found_only["tolerances"] = Json::array({tolerance("straightness", 1, "um", "order")});
    Json stated = {{"id", "x-ezx-left"}, {"error", "EZX"},    {"state", "as-left"},
                   {"unit", "um"},       {"position_unit", "mm"}, {"stated", {{"straightness", number_as_written("2.10")}}},
                   {"tolerances", Json::array({tolerance("straightness", 4, "um", "order")})}};
    Json pitch = bare_series(middling_axis(400), "EBX", "x-ebx-left", plan, noise);
    pitch["state"] = "as-left";
    return judged_document(
        "AW-22", "guard-band",
        Json::array({judged_series("x-exx-found", "as-found", 2, limits_of_position(9, 5.2, 3, 2.5)), std::move(found_only),
                     judged_series("x-exx-left", "as-left", 1, limits_of_position(9, 5.2, 3, 2.5)), std::move(stated), std::move(pitch)}),
        Json::array({stated_U("x-exx-found", "A", 0.8), stated_U("x-exx-left", "A", 0.8), stated_U("x-exx-left", "E", 0.6),
                     stated_U("x-exx-left", "R", 0.4), stated_U("x-eyx-found", "straightness", 0.3),
                     stated_U("x-ezx-left", "straightness", 0.5)}));
}

/// Undecided under and over the limit, over it by more than U but less than U and scatter, and inside.
Json outcomes_on_both_sides() {
    return judged_document("AW-23", "guard-band-both-sides",
                           Json::array({judged_series("x-exx", "as-found", 1, limits_of_position(6.9, 4.6, 2, 3))}),
                           Json::array({stated_U("x-exx", "A", 0.8), stated_U("x-exx", "E", 0.6), stated_U("x-exx", "R", 0.4),
                                        stated_U("x-exx", "B", 0.4)}));
}

/// Inside and outside by less than U; R is over by more than its U, but by less than U and scatter.
Json outcomes_with_conditions() {
    return judged_document("AW-24", "non-binary",
                           Json::array({judged_series("x-exx", "as-found", 1, limits_of_position(7, 4.6, 2.9, 3))}),
                           Json::array({stated_U("x-exx", "A", 0.8), stated_U("x-exx", "E", 0.6), stated_U("x-exx", "R", 0.3),
                                        stated_U("x-exx", "B", 0.4)}));
}

/// A verdict that is worth less than it says: two runs each way, so that U covers less than 95 %, a set-up check that failed, and nothing
/// on drift and expansion.
Json weak_verdict() {
    Noise noise(25);
    RunPlan plan;
    plan.targets = {0, 100, 190, 310, 400};
    plan.runs_each_way = 2;
    Json series = bare_series(middling_axis(400), "EXX", "x-exx", plan, noise);
    series["instrument"] = "laser";
    series["tolerances"] = Json::array({tolerance("A", 8, "um", "order"), tolerance("R", 3, "um", "order")});
    Json document = bare_document("AW-25", "A verdict on weak ground", Json::array({std::move(series)}));
    document["evaluation"] = {{"decision_rule", "guard-band-both-sides"}};
    document["machine"] =
        invented_machine({"milling machine", "Demonstrator W", "W-0025"}, Json::array({{{"name", "X"}, {"kind", "linear"}}}));
    document["instruments"] = Json::array({invented_instruments()[0]});
    document["setup"] = {{"checks", Json::array({{{"name", "beam offset over the travel"},
                                                  {"axis", "X"},
                                                  {"reading", 2.1},
                                                  {"at_most", 1.5},
                                                  {"unit", "mm"},
                                                  {"basis", "procedure"}}})}};
    return document;
}

namespace {

/// An on-the-fly record along 1 m: a bow, a wave of 20 mm and noise.
std::vector<std::pair<double, double>> record(std::size_t count) {
    Noise noise(count);
    std::vector<std::pair<double, double>> samples;
    for (std::size_t i = 0; i < count; ++i) {
        const double x = shown(1000.0 * static_cast<double>(i) / static_cast<double>(count - 1), 100);
        samples.emplace_back(
            x, shown(4 * std::sin(x * 0.00314159265) + 0.6 * std::sin(x * 0.314159265) + 0.15 * noise.normal(), 100));
    }
    return samples;
}

}  // namespace

std::string trace_file() {
    std::string text = "position,value\n";
    for (const auto& [x, value] : record(400)) text += plain_number(x).dump() + "," + plain_number(value).dump() + "\n";
    return text;
}

Json trace_beside() {
    Noise noise(18);
    RunPlan plan;
    plan.targets = {0, 250, 500, 750, 1000};
    Json series = bare_series(middling_axis(1000), "EYX", "x-eyx", plan, noise);
    series["trace"] = {{"file", "trace.csv"}, {"approach", "positive"}};
    return bare_document("AW-18", "Runs and a record taken on the fly", Json::array({std::move(series)}));
}

Json long_trace() {
    Json samples = Json::array();
    for (const auto& [x, value] : record(10000)) samples.push_back(Json::array({plain_number(x), plain_number(value)}));
    return bare_document("AW-20", "A record of ten thousand samples",
                         Json::array({{{"id", "x-eyx"},
                                       {"error", "EYX"},
                                       {"unit", "um"},
                                       {"position_unit", "mm"},
                                       {"targets", {0, 500, 1000}},
                                       {"runs", Json::array({{{"approach", "positive"}, {"deviations", {0.1, 4.0, 0.2}}}})},
                                       {"trace", {{"samples", std::move(samples)}, {"approach", "positive"}}}}}));
}

std::vector<SampleFile> awkward_samples() {
    return {{"57-targets-14-m-one-run.json", json_text(many_targets_one_run())},
            {"one-direction.json", json_text(one_direction())},
            {"all-equal.json", json_text(all_equal())},
            {"no-limits.json", json_text(no_limits())},
            {"long-names.json", json_text(long_names())},
            {"greek-and-cyrillic.json", json_text(greek_and_cyrillic())},
            {"script-without-font.json", json_text(script_without_font())},
            {"eight-series.json", json_text(eight_series())},
            {"negative-reversal.json", json_text(positive_and_negative_reversal())},
            {"draft-with-internal-remarks.json", json_text(draft_with_internal_remarks())},
            {"logo-beside.json", json_text(logo_beside())},
            {"logo.svg",
             "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"48\" height=\"24\" viewBox=\"0 0 48 24\">"
             "<rect width=\"48\" height=\"24\" fill=\"#1f4e79\"/><path d=\"M4 18 L16 8 L26 14 L44 5\" stroke=\"#fff\" "
             "stroke-width=\"2\" fill=\"none\"/></svg>\n"},
            {"logo-inside.json", json_text(logo_inside())},
            {"inches-descending.json", json_text(inches_descending())},
            {"two-axes-and-square.json", json_text(two_axes_and_square())},
            {"compensation-tables.json", json_text(compensation_tables())},
            {"angle-steps.json", json_text(angle_steps())},
            {"stated-only.json", json_text(stated_only())},
            {"rotary-two-turns.json", json_text(two_turns())},
            {"surroundings-and-budgets.json", json_text(surroundings_and_budgets())},
            {"outcomes-guard-band.json", json_text(outcomes_with_guard_band())},
            {"outcomes-both-sides.json", json_text(outcomes_on_both_sides())},
            {"outcomes-non-binary.json", json_text(outcomes_with_conditions())},
            {"weak-verdict.json", json_text(weak_verdict())},
            {"inch-job.json", json_text(inch_job())},
            {"rotary-in-degrees.json", json_text(rotary_in_degrees())},
            {"rotary-found-and-left.json", json_text(rotary_found_and_left())},
            {"whole-micrometres.json", json_text(whole_micrometres())},
            {"millimetres-and-slopes.json", json_text(millimetres_and_slopes())},
            {"tiny-values.json", json_text(tiny_values())},
            {"trace-beside.json", json_text(trace_beside())},
            {"trace.csv", trace_file()}};
}

std::vector<SampleFile> large_samples() {
    return {{"200-targets-10-runs.json", json_text(many_targets_many_runs())}, {"trace-of-10000.json", json_text(long_trace())}};
}

}  // namespace wayfolio::samples
