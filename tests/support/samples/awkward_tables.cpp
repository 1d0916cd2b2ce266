#include "support/samples/awkward_parts.hpp"

namespace wayfolio::samples {

Json compensation_tables() {
    Noise noise(90);
    RunPlan plan;
    plan.targets = {-100, 0, 100, 200, 300, 400};
    plan.runs_each_way = 2;
    LinearAxis x = middling_axis(400);
    x.lead_um_per_m = -21;  // runs short: corrections are positive
    Json list = Json::array({bare_series(x, "EXX", "x-exx", plan, noise)});
    Json one_way = bare_series(x, "EXX", "x-one-way", plan, noise);
    one_way["state"] = "one way";
    std::erase_if(one_way["runs"].get_ref<Json::array_t&>(), [](const Json& run) { return run["approach"] == "negative"; });
    list.push_back(std::move(one_way));
    list.push_back({{"id", "c-ecc"},
                    {"error", "ECC"},
                    {"unit", "arcsec"},
                    {"position_unit", "deg"},
                    {"targets", {0, 60, 120, 180, 240, 300, 360}},
                    {"runs",
                     {{{"approach", "positive"}, {"deviations", {0, 3.1, 2.2, -0.4, -3.3, -2.6, 0.1}}},
                      {{"approach", "negative"}, {"deviations", {1.2, 4.4, 3.3, 0.9, -2.2, -1.3, 1.4}}}}}});
    Json document = bare_document("AW-21", "Compensation: refused, in one approach, rotary, and of a falling curve", std::move(list));
    const auto table = [](const char* axis, const char* series, double spacing, double reference, double increment, const char* kind) {
        const bool rotary = std::string(axis) == "C";
        return Json{{"axis", axis},
                    {"series", series},
                    {rotary ? "point_interval_deg" : "point_interval_mm", plain_number(spacing)},
                    {rotary ? "zero_at_deg" : "zero_at_mm", plain_number(reference)},
                    {rotary ? "rounded_to_arcsec" : "rounded_to_um", plain_number(increment)},
                    {"table", kind}};
    };
    document["compensation"] = {table("X", "x-exx", 50, 200, 0.1, "bidirectional"), table("X", "x-exx", 100, 600, 1, "bidirectional"),
                                table("X", "x-one-way", 100, 0, 1, "positive"), table("X", "x-one-way", 100, 0, 1, "both"),
                                table("C", "c-ecc", 30, 0, 0.5, "bidirectional")};
    return document;
}

}  // namespace wayfolio::samples
