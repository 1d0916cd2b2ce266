#include "support/samples/measured_series.hpp"
#include "support/samples/sample_set.hpp"
#include "support/samples/surroundings.hpp"

namespace wayfolio::samples {
namespace {

constexpr double degree = 3.14159265358979323846 / 180;

/// A rotary table: the disc sits off centre (first harmonic), is out of round (second), and the worm repeats 30 times a turn.
double table_arcsec(const Visit& v) {
    const double a = v.x * degree;
    return 3.1 * std::sin(a + 0.6) - 3.1 * std::sin(0.6) + 0.9 * std::sin(2 * a) + 0.35 * std::sin(30 * a) +
           (v.positive ? 0.5 : -0.5) * (-1.8 + 0.3 * std::cos(a));
}

Json table_series() {
    Noise noise(360);
    RunPlan plan;
    plan.targets = {0, 27, 63, 90, 118, 151, 180, 209, 242, 270, 303, 334, 360};
    plan.day = "2026-04-14";
    plan.minutes_per_run = 4;
    return {{"id", "c-ecc"},
            {"error", "ECC"},
            {"state", "as-found"},
            {"instrument", "indexer"},
            {"unit", "arcsec"},
            {"position_unit", "deg"},
            {"sign", "actual-minus-target"},
            {"measurement_line", 0},
            {"targets", plain_numbers(plan.targets)},
            {"runs", measured_runs(plan, table_arcsec, 0.3, noise)},
            {"tolerances",
             {tolerance("A", 12, "arcsec", "builder's test sheet"), tolerance("R", 4, "arcsec", "builder's test sheet"),
              tolerance("B", 3, "arcsec", "builder's test sheet")}}};
}

Json job_of_rotary_axis() {
    Json job = invented_job("WF-1360", "Positioning test of a rotary table, C axis",
                            {"Specimen Boring Works", "3 Example Yard", "00000 Specimen Hill", "At the customer's, heavy hall, pit 1"});
    job["measured"] = {{"from", "2026-04-14T08:20+02:00"}, {"to", "2026-04-14T09:20+02:00"}};
    job["issued"] = "2026-04-15";
    job["revision"] = 0;
    job["people"] = {{{"role", "measured by"}, {"name", "Field engineer 2"}},
                     {{"role", "approved by"}, {"name", "Head of laboratory"}}};
    job["method"] = "Work instruction 15: rotary axis by self-indexing angle interferometer, in the manner of ISO 230-2:2014";
    return job;
}

Json indexer() {
    return invented_instrument({"indexer", "angle interferometer with self-indexing table", "Indexer one", "R-009", 16},
                               {{"angle", {{"urad", 3}, {"urad_per_m", 0}}}});
}

Json setup_of_rotary_axis() {
    return {{"checks",
             {{{"name", "indexer off the table's axis"},
               {"axis", "C"},
               {"reading", 0.04},
               {"at_most", 0.1},
               {"unit", "mm"},
               {"basis", "instrument manual"}},
              {{"name", "warm-up, ten turns each way"}, {"axis", "C"}, {"done", true}, {"basis", "agreed with the customer"}}}},
            {"measurement_lines", Json::array({{{"axis", "C"}, {"at", {{"X", 1200}, {"Y", 0}, {"Z", 350}}}}})},
            {"feed_deg_per_min", 720},
            {"dwell_s", 4},
            {"warm_up", "ten turns each way"}};
}

Json contributors_of_rotary_axis() {
    return {{{"name", "mounting of the indexer"},
             {"applies_to", Json::array({"ECC"})},
             {"standard", 0.2},
             {"unit", "arcsec"},
             {"distribution", "normal"},
             {"degrees_of_freedom", 6},
             {"basis", "type A, 7 set-ups"}},
            {{"name", "indexer off the table's axis"},
             {"applies_to", Json::array({"ECC"})},
             {"half_width", 0.3},
             {"unit", "arcsec"},
             {"distribution", "u-shaped"},
             {"basis", "0.04 mm, instrument manual"}}};
}

}  // namespace

Json rotary_axis() {
    Surroundings around;
    around.day = "2026-04-14";
    around.end_minute = 9 * 60 + 20;
    around.air_rise_K = 0.3;
    around.sensors = {"table body"};
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job", job_of_rotary_axis()},
            {"machine", invented_machine({"rotary table of a boring mill", "Demonstrator R", "D-0021"},
                                         Json::array({{{"name", "C"},
                                                       {"kind", "rotary"},
                                                       {"moves", "workpiece"},
                                                       {"sensors", Json::array({"table body"})},
                                                       {"travel", {{"from", 0}, {"to", 360}, {"unit", "deg"}}}}}))},
            {"instruments", Json::array({indexer()})},
            {"environment", environment(around, 361)},
            {"setup", setup_of_rotary_axis()},
            {"series", Json::array({table_series()})},
            {"evaluation",
             {{"standard", "ISO 230-2:2014"}, {"decision_rule", "simple"}, {"coverage", "95-percent"}, {"hints", true}}},
            {"uncertainty", {{"contributors", contributors_of_rotary_axis()}}}};
}

}  // namespace wayfolio::samples
