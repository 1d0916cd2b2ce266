#include "support/samples/awkward_parts.hpp"

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
    Json document = bare_document("AW-14", "Squareness of X and Y against a reference square", std::move(list));
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
            {"trace-beside.json", json_text(trace_beside())},
            {"trace.csv", trace_file()}};
}

std::vector<SampleFile> large_samples() {
    return {{"200-targets-10-runs.json", json_text(many_targets_many_runs())}, {"trace-of-10000.json", json_text(long_trace())}};
}

}  // namespace wayfolio::samples
