#include "support/samples/awkward_parts.hpp"

/// Documents whose units, digits and sizes are not those of a metric axis read to 0.1 µm.
namespace wayfolio::samples {
namespace {

constexpr double um_per_in = 25400, arcsec_per_deg = 3600;

/// `symbol` of an axis read in another unit, which is `in_um` µm or µrad, to one part of `steps`.
struct OtherUnit {
    std::string unit, position_unit;
    double in_um, position_in_mm;
    double steps;
};

Json series_in(const OtherUnit& unit, const LinearAxis& axis, const std::string& symbol, const std::string& state, RunPlan plan,
               Noise& noise) {
    plan.steps_per_unit = unit.steps;
    Json runs = measured_runs(
        plan,
        [&](const Visit& v) {
            return true_deviation(axis, symbol, {v.x * unit.position_in_mm, v.positive, v.elapsed}) / unit.in_um;
        },
        reading_noise(axis, symbol) / unit.in_um, noise);
    for (Json& run : runs) {
        run.erase("started");
        run.erase("ended");
    }
    return {{"id", "x-" + symbol + (state == "as-left" ? "-left" : "")},
            {"error", symbol},
            {"state", state},
            {"unit", unit.unit},
            {"position_unit", unit.position_unit},
            {"targets", plain_numbers(plan.targets)},
            {"runs", std::move(runs)}};
}

Json standard_contributor(const std::string& name, const std::vector<std::string>& errors, double standard, const std::string& unit) {
    return {{"name", name}, {"applies_to", errors}, {"standard", plain_number(standard)}, {"unit", unit}};
}

Json with_uncertainty(Json document, const std::string& rule, Json contributors) {
    document["evaluation"] = {{"decision_rule", rule}};
    document["uncertainty"] = {{"contributors", std::move(contributors)}};
    return document;
}

LinearAxis better(LinearAxis axis) {
    axis.lead_um_per_m /= 4;
    axis.dip_um /= 3;
    axis.reversal_start_um /= 2;
    axis.reversal_end_um /= 2;
    return axis;
}

/// A table whose disc sits off centre, in degrees or seconds of arc; `size` scales its error.
Json round_table_series(const std::string& unit, const std::string& state, double size, double steps, Noise& noise) {
    const double in_arcsec = unit == "deg" ? arcsec_per_deg : 1;
    RunPlan plan;
    plan.targets = {0, 40, 80, 120, 160, 200, 240, 280, 320, 360};
    plan.runs_each_way = 3;
    plan.steps_per_unit = steps;
    Json runs = measured_runs(
        plan,
        [&](const Visit& v) {
            const double turn = v.x * 3.14159265358979323846 / 180;
            return size * (4 * std::sin(turn + 0.4) - 4 * std::sin(0.4) + 0.7 * std::sin(3 * turn) + (v.positive ? 0.6 : -0.6)) / in_arcsec;
        },
        0.3 * size / in_arcsec, noise);
    for (Json& run : runs) {
        run.erase("started");
        run.erase("ended");
    }
    return {
        {"id", state == "as-left" ? "c-left" : "c"}, {"error", "ECC"},         {"state", state}, {"unit", unit}, {"position_unit", "deg"},
        {"targets", plain_numbers(plan.targets)},    {"runs", std::move(runs)}};
}

}  // namespace

Json inch_job() {
    Noise noise(3001);
    const OtherUnit tenths{"in", "in", um_per_in, 25.4, 1e6}, microinches{"uin", "in", 0.0254, 25.4, 1};
    RunPlan plan;
    plan.targets = {0, 3.5, 7.2, 11, 14.6, 18.1, 22.4, 26, 30};
    const LinearAxis found = middling_axis(762), left = better(found);
    Json list = Json::array();
    for (const std::string state : {"as-found", "as-left"}) {
        Json exx = series_in(tenths, state == "as-found" ? found : left, "EXX", state, plan, noise);
        exx["tolerances"] = {tolerance("A", 0.0004, "in", "drawing"), tolerance("R", 0.00015, "in", "drawing"),
                             tolerance("B", 150, "uin", "drawing")};
        Json eyx = series_in(microinches, found, "EYX", state, plan, noise);
        eyx["tolerances"] = {tolerance("straightness", 0.0002, "in", "drawing")};
        list.push_back(std::move(exx));
        list.push_back(std::move(eyx));
    }
    Json ebx = series_in({"arcsec", "in", 4.84813681109536, 25.4, 10}, found, "EBX", "as-left", plan, noise);
    ebx["tolerances"] = {tolerance("angle", 4, "arcsec", "drawing")};
    list.push_back(std::move(ebx));
    Json document = bare_document("AW-31", "An inch job: readings in inches, limits in inches and microinches", std::move(list));
    document["machine"]["axes"] = Json::array({{{"name", "X"}, {"kind", "linear"}, {"travel", {{"from", 0}, {"to", 30}, {"unit", "in"}}}}});
    return with_uncertainty(
        std::move(document), "guard-band-both-sides",
        {standard_contributor("scale of the instrument", {"EXX"}, 0.6, "um/m"), standard_contributor("set-up", {"EXX", "EYX"}, 20, "uin"),
         standard_contributor("set-up of the angle", {"EBX"}, 0.2, "arcsec")});
}

Json rotary_in_degrees() {
    Noise noise(3002);
    Json series = round_table_series("deg", "as-found", 1, 1e5, noise);
    series["tolerances"] = {tolerance("A", 0.004, "deg", "order"), tolerance("R", 0.001, "deg", "order")};
    Json document =
        bare_document("AW-32", "A rotary table in degrees, with an uncertainty of 0.0003 degrees", Json::array({std::move(series)}));
    document["machine"]["axes"] =
        Json::array({{{"name", "C"}, {"kind", "rotary"}, {"travel", {{"from", 0}, {"to", 360}, {"unit", "deg"}}}}});
    document["compensation"] = Json::array({{{"axis", "C"},
                                             {"series", "c"},
                                             {"point_interval_deg", 30},
                                             {"zero_at_deg", 0},
                                             {"rounded_to_arcsec", 0.5},
                                             {"table", "bidirectional"}}});
    return with_uncertainty(std::move(document), "guard-band", {standard_contributor("table of the instrument", {"ECC"}, 0.00015, "deg")});
}

Json rotary_found_and_left() {
    Noise noise(3003);
    Json list =
        Json::array({round_table_series("arcsec", "as-found", 1.2, 10, noise), round_table_series("arcsec", "as-left", 0.5, 10, noise)});
    for (Json& series : list) series["tolerances"] = {tolerance("A", 0.0025, "deg", "order"), tolerance("B", 6, "urad", "order")};
    RunPlan plan;
    plan.targets = {0, 100, 200, 300, 400};
    list.push_back(series_in({"deg", "mm", 17453.2925199433, 1, 1e6}, middling_axis(400), "EBX", "as-left", plan, noise));
    return with_uncertainty(
        bare_document("AW-33", "A rotary table in seconds of arc, as found and as left, with limits in other units", std::move(list)),
        "non-binary", {standard_contributor("table of the instrument", {"ECC"}, 0.4, "arcsec")});
}

Json whole_micrometres() {
    Noise noise(3004);
    const OtherUnit whole{"um", "mm", 1, 1, 1};
    RunPlan plan;
    plan.targets = {0, 210, 390, 615, 800, 1000};
    plan.runs_each_way = 3;
    Json list = Json::array();
    for (const std::string state : {"as-found", "as-left"}) {
        const LinearAxis axis = state == "as-found" ? middling_axis(1000) : better(middling_axis(1000));
        for (const std::string symbol : {"EXX", "EYX"}) list.push_back(series_in(whole, axis, symbol, state, plan, noise));
        list[list.size() - 2]["tolerances"] = {tolerance("A", 12.5, "um", "order"), tolerance("R", 3, "um", "order")};
        list.back()["tolerances"] = {tolerance("straightness", 0.004, "mm", "order")};
    }
    return with_uncertainty(
        bare_document("AW-34", "Readings in whole micrometres, an uncertainty far below them", std::move(list)), "iso-14253-1",
        {standard_contributor("instrument", {"EXX"}, 0.08, "um"), standard_contributor("reference", {"EYX"}, 0.4, "um")});
}

Json millimetres_and_slopes() {
    Noise noise(3005);
    const OtherUnit millimetres{"mm", "mm", 1000, 1, 1e4}, slopes{"um/m", "mm", 1, 1, 10};
    RunPlan plan;
    plan.targets = {0, 1310, 2480, 3905, 5200, 6400};
    plan.runs_each_way = 1;
    LinearAxis axis = middling_axis(6400);
    Json list = Json::array();
    for (const std::string symbol : {"EXX", "EYX"}) list.push_back(series_in(millimetres, axis, symbol, "as-found", plan, noise));
    for (const std::string symbol : {"EBX", "ECX"}) list.push_back(series_in(slopes, axis, symbol, "as-found", plan, noise));
    list[0]["tolerances"] = {tolerance("E", 0.03, "mm", "order")};
    list[1]["tolerances"] = {tolerance("straightness", 25, "um", "order"),
                             {{"parameter", "local"}, {"length_mm", 2500}, {"limit", 0.006}, {"unit", "mm"}, {"source", "order"}}};
    list[2]["tolerances"] = {tolerance("angle", 4, "arcsec", "order")};
    LinearAxis y = middling_axis(900);
    y.beam_y_um_per_m = -14;
    plan.targets = {0, 180, 360, 540, 720, 900};
    Json along_y = series_in(millimetres, y, "EYX", "as-found", plan, noise);
    along_y["error"] = "EXY";
    along_y["id"] = "y-EXY";
    list.push_back(std::move(along_y));
    Json document = bare_document("AW-35", "A long axis in millimetres, angles as slopes, squareness in seconds of arc", std::move(list));
    document["squareness"] = Json::array(
        {{{"axes", {"X", "Y"}}, {"series", {"x-EYX", "y-EXY"}}, {"tolerance", {{"limit", 4}, {"unit", "arcsec"}, {"source", "order"}}}}});
    return with_uncertainty(
        std::move(document), "guard-band",
        {standard_contributor("scale of the instrument", {"EXX"}, 0.5, "um/m"), standard_contributor("set-up", {"EYX", "EXY"}, 1.2, "um"),
         standard_contributor("set-up of the angle", {"EBX"}, 0.4, "um/m")});
}

Json tiny_values() {
    Noise noise(3006);
    const OtherUnit fine{"um", "mm", 1, 1, 1000};
    RunPlan plan;
    plan.targets = {0, 10, 21, 30, 41, 50};
    LinearAxis axis;
    axis.to = 50;
    axis.dip_um = 0.02;
    axis.dip_at = 20;
    axis.dip_half_width = 15;
    axis.length_noise_um = 0.003;
    axis.reversal_start_um = axis.reversal_end_um = 0.004;
    Json series = series_in(fine, axis, "EXX", "as-found", plan, noise);
    series["tolerances"] = {tolerance("A", 0.045, "um", "order"), tolerance("B_mean", 0.004, "um", "order")};
    return with_uncertainty(
        bare_document("AW-36", "A stage of 50 mm that errs by hundredths of a micrometre", Json::array({std::move(series)})),
        "guard-band-both-sides", {standard_contributor("instrument", {"EXX"}, 0.004, "um")});
}

}  // namespace wayfolio::samples
