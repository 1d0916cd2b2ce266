#include "support/samples/machine_seven.hpp"

#include <cstdint>

namespace wayfolio::samples {
namespace {

/// What a year of wear does: the scale error and the reversal grow.
LinearAxis worn(double lead_um_per_m, double lead_bow_um, double reversal_start_um, double reversal_end_um) {
    LinearAxis a = latest_of_seven();
    a.lead_um_per_m = lead_um_per_m;
    a.lead_bow_um = lead_bow_um;
    a.reversal_start_um = reversal_start_um;
    a.reversal_end_um = reversal_end_um;
    return a;
}

struct State {
    std::string name;
    LinearAxis axis;
};

struct YearlyVisit {
    std::string day, number;
    int year;
    std::vector<State> states;
};

/// In the third year the scale was compensated and the reversal reduced; both have grown again since.
std::vector<YearlyVisit> visits_before_the_latest() {
    return {{"2021-05-17", "WF-0141", 2021, {{"as-found", worn(0.6, 0.7, -0.3, -0.8)}}},
            {"2022-05-16", "WF-0288", 2022, {{"as-found", worn(1.6, 1.0, -0.5, -1.4)}}},
            {"2023-05-15", "WF-0433", 2023, {{"as-found", worn(2.7, 1.4, -0.8, -2.1)}, {"as-left", worn(0.5, 0.9, -0.3, -0.8)}}},
            {"2024-05-13", "WF-0629", 2024, {{"as-found", worn(1.2, 1.2, -0.5, -1.3)}}},
            {"2025-05-12", "WF-0814", 2025, {{"as-found", worn(1.9, 1.5, -0.7, -1.9)}}}};
}

Json job_of(const YearlyVisit& visit) {
    Json job = invented_job(visit.number, "Yearly positioning test of the X axis of a machining centre", site_of_seven());
    job["measured"] = {{"from", clock_time(visit.day, 8 * 60 + 20)}, {"to", clock_time(visit.day, 10 * 60 + 30)}};
    job["issued"] = visit.day;
    job["people"] = {{{"role", "measured by"}, {"name", "Field engineer 1"}}, {{"role", "approved by"}, {"name", "Head of laboratory"}}};
    job["method"] = "Work instruction 11: positioning of a linear axis by laser interferometer, in the manner of ISO 230-2:2014";
    return job;
}

Json document_of(const YearlyVisit& visit) {
    Noise targets(1600), noise(static_cast<std::uint64_t>(visit.year));
    RunPlan plan;
    plan.targets = targets_of_seven(targets);
    plan.day = visit.day;
    plan.minutes_per_run = 3;
    Json series = Json::array(), stated = Json::array();
    for (const State& state : visit.states) {
        Json one = positioning_of_seven(state.axis, state.name, plan, noise);
        one.erase("measurement_line");  // no set-up is kept of these visits
        for (Json& uncertainty : stated_for_positioning(one["id"])) stated.push_back(std::move(uncertainty));
        series.push_back(std::move(one));
        plan.start_minute += 75;
    }
    return {{"format", "wayfolio-result"},
            {"version", 1},
            {"job", job_of(visit)},
            {"machine", machine_seven()},
            {"instruments", invented_instruments(visit.year)},
            {"series", std::move(series)},
            {"evaluation", {{"standard", "ISO 230-2:2014"}, {"decision_rule", "guard-band"}, {"coverage", "k2"}}},
            {"uncertainty", {{"stated", std::move(stated)}}}};
}

}  // namespace

std::vector<std::pair<std::string, Json>> earlier_visits() {
    std::vector<std::pair<std::string, Json>> documents;
    for (const YearlyVisit& visit : visits_before_the_latest()) documents.emplace_back(visit.day, document_of(visit));
    return documents;
}

}  // namespace wayfolio::samples
