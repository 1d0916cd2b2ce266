#include "commands/program.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;
using nlohmann::json;

namespace {

/// A job with nothing left to do at the machine: five runs each way over targets with a random part, an instrument in date, records
/// of environment and drift, a set-up check; the readings scatter by a tenth of a micrometre without a trend.
json complete_job() {
    json job = json::parse(R"({
 "format": "wayfolio-result", "version": 1,
 "job": {"data_notice": "Invented data for demonstration", "measured": {"from": "2026-05-11T08:00Z", "to": "2026-05-11T09:00Z"}},
 "machine": {"condition": "in use",
             "axes": [{"name": "X", "kind": "linear", "travel": {"from": 0, "to": 500, "unit": "mm"},
                       "expansion_um_per_m_K": {"value": 11.5, "expanded_uncertainty": 1, "coverage_factor": 2}}]},
 "instruments": [{"id": "laser", "certificate": "EX-1", "calibrated": "2026-01-08", "due": "2027-01-08"}],
 "environment": {"samples": [
   {"time": "2026-05-11T08:00Z", "air_C": 20.0, "pressure_hPa": 1013, "humidity_percent": 50, "machine_C": {"bed": 20.0}},
   {"time": "2026-05-11T09:00Z", "air_C": 20.0, "pressure_hPa": 1013, "humidity_percent": 50, "machine_C": {"bed": 20.0}}]},
 "setup": {"checks": [{"name": "signal over the whole travel", "reading": 80, "unit": "percent", "at_least": 60}]},
 "drift": [{"axis": "X", "quantity": "EXX", "at_mm": 0,
            "samples": [{"time": "2026-05-11T09:00Z", "um": 0.0}, {"time": "2026-05-11T10:10Z", "um": 0.1}]}],
 "series": [{"id": "x", "error": "EXX", "instrument": "laser", "unit": "um", "position_unit": "mm",
             "targets": [0, 110, 190, 310, 420, 500], "runs": [],
             "tolerances": [{"parameter": "A", "limit": 12, "unit": "um", "source": "invented"}]}]})");
    for (int run = 0; run < 10; ++run) {
        const bool positive = run % 2 == 0;
        json readings = json::array();
        // Multiples of 0.1 µm in an order without pattern: 7 and 11 are primes.
        for (int target = 0; target < 6; ++target)
            readings.push_back((target * 10 + (positive ? 0 : -10) + (run * run * 7 + target * run * 5 + target * 3) % 11 - 5) / 10.0);
        job["series"][0]["runs"].push_back({{"approach", positive ? "positive" : "negative"}, {"deviations", readings}});
    }
    return job;
}

/// One run in one direction, 38 of 48 targets unread, a limit that is not evaluated, no environment, no set-up checks, an expired
/// certificate, another series in mm.
json awkward_job(const std::string& error, const std::string& limited) {
    json job{{"format", "wayfolio-result"},
             {"version", 1},
             {"job", {{"data_notice", "Invented data for demonstration"}, {"measured", {{"from", "2026-05-11T08:00Z"}}}}},
             {"instruments", {{{"id", "laser"}, {"certificate", "EX-1"}, {"calibrated", "2025-01-08"}, {"due", "2026-01-08"}}}}};
    json targets = json::array(), readings = json::array();
    for (int i = 0; i < 48; ++i) {
        targets.push_back(40 * i + i * 7 % 5);
        readings.push_back(i < 10 ? json(0.1 * (i % 3)) : json(nullptr));
    }
    const auto series = [&](const char* id, const std::string& symbol, const char* unit) {
        return json{{"id", id},
                    {"error", symbol},
                    {"instrument", "laser"},
                    {"unit", unit},
                    {"position_unit", "mm"},
                    {"targets", targets},
                    {"runs", {{{"approach", "positive"}, {"deviations", readings}}}}};
    };
    job["series"] = {series("x", error, "um"), series("y", "EYY", "mm")};
    job["series"][0]["tolerances"] = {{{"parameter", limited}, {"limit", 12}, {"unit", "um"}, {"source", "invented"}}};
    return job;
}

json checked(const TemporaryFolder& folder, const json& job) {
    const Ran ran = called_with("check --json " + folder.file("job.json", job.dump()));
    CAPTURE(ran.out, ran.err);
    REQUIRE(ran.code == 0);
    return json::parse(ran.out);
}

std::vector<std::string> codes_at_machine(const json& found) {
    std::vector<std::string> codes;
    for (const auto& line : found.at("before_leaving"))
        if (line.at("at_machine")) codes.push_back(line.at("code"));
    return codes;
}

bool has(const std::vector<std::string>& codes, const std::string& code) {
    return std::find(codes.begin(), codes.end(), code) != codes.end();
}

}  // namespace

TEST_CASE(
    "a sample shows what a job looks like with nothing left to do: a rotary axis needs no drift record, which could hold lengths only") {
    const Ran ran = called_with("check " + source_folder + "/sample-results/rotary-axis.json --fail-on-findings");
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, EndsWith("Nothing left to do at the machine.\n"));
}

TEST_CASE("a job with most of its readings and evidence missing is no all-clear") {
    const auto [error, limited] = GENERATE(table<std::string, std::string>({{"EXX", "A"}, {"EYX", "straightness_negative"}}));
    CAPTURE(error);
    const TemporaryFolder folder;
    const json job = awkward_job(error, limited), found = checked(folder, job);
    const auto codes = codes_at_machine(found);
    for (const char* code : {"limit-lacks-readings", "targets-unread", "certificate-expired", "environment-missing",
                             "set-up-checks-missing", "one-direction-only", "too-few-runs", "drift-record-missing"})
        CHECK(has(codes, code));
    const std::string sentence = found.at("last_line");
    CHECK_THAT(sentence, Catch::Matchers::StartsWith("Before leaving, settle at the machine: "));
    const std::string file = folder.file("job.json", job.dump());
    const Ran ran = called_with("check " + file);
    CHECK(ran.code == 0);
    CHECK_THAT(ran.out, EndsWith(sentence + "\n") && Contains("38 of 48 targets, the first at 400 mm [targets-unread]"));
    CHECK(called_with("check --fail-on-findings " + file).code == 1);
    CHECK(called_with("check --json --fail-on-findings " + file).code == 1);
}

TEST_CASE("a job whose work at the machine is done is told so, with what is missing in the document") {
    const TemporaryFolder folder;
    const json job = complete_job(), found = checked(folder, job);
    CHECK(codes_at_machine(found) == std::vector<std::string>{});
    CHECK_THAT(found.at("last_line").get<std::string>(),
               Catch::Matchers::StartsWith("Machine work complete; still missing in the document: entries for ISO/IEC 17025, "));
    CHECK(called_with("check --fail-on-findings " + folder.file("job.json", job.dump())).code == 0);
}

TEST_CASE("each thing that only the machine can give is missed by its own code, and by no other", "[again]") {
    using Change = void (*)(json&);
    const auto [code, change] = GENERATE(table<std::string, Change>({
        {"environment-missing", [](json& job) { job.erase("environment"); }},
        {"machine-temperatures-missing", [](json& job) { for (auto& s : job["environment"]["samples"]) s.erase("machine_C"); }},
        {"drift-record-missing", [](json& job) { job.erase("drift"); }},
        {"set-up-checks-missing", [](json& job) { job.erase("setup"); }},
        {"set-up-check-open", [](json& job) { job["setup"]["checks"][0].erase("reading"); }},
        {"measurement-line-open",
         [](json& job) { job["setup"]["measurement_lines"] = json::array({{{"axis", "X"}}, {{"axis", "X"}}}); }},
        {"bias-not-corrected",
         [](json& job) {
             job["series"][0]["air_correction"] = {{"applied", true}, {"air_C", 0}, {"pressure_hPa", 1013}, {"humidity_percent", 50}};
         }},
        {"set-up-check-failed", [](json& job) { job["setup"]["checks"][0]["reading"] = 50; }},
        {"instrument-missing", [](json& job) { job.erase("instruments"); job["series"][0].erase("instrument"); }},
        {"certificate-missing", [](json& job) { job["instruments"][0].erase("certificate"); }},
        {"certificate-missing", [](json& job) { job["instruments"][0].erase("calibrated"); job["instruments"][0].erase("due"); }},
        {"certificate-expired", [](json& job) { job["instruments"][0]["due"] = "2026-05-10"; }},
        {"calibrated-after-measurement", [](json& job) { job["instruments"][0]["calibrated"] = "2026-05-12"; }},
        {"machine-condition-missing", [](json& job) { job["machine"].erase("condition"); }},
        {"series-instrument-missing", [](json& job) { job["series"][0].erase("instrument"); }},
        {"series-time-missing", [](json& job) { job["job"].erase("measured"); }},
        {"targets-evenly-spaced", [](json& job) { job["series"][0]["targets"] = {0, 100, 200, 300, 400, 500}; }},
        {"readings-not-tested", [](json& job) { job["evaluation"]["hints"] = false; }},
        {"too-few-runs", [](json& job) { for (int i = 0; i < 2; ++i) job["series"][0]["runs"].erase(9 - i); }},
    }));
    CAPTURE(code);
    const TemporaryFolder folder;
    json job = complete_job();
    change(job);
    CHECK(codes_at_machine(checked(folder, job)) == std::vector<std::string>{code});
}

TEST_CASE("readings that a limit needs are missed at the machine, and fewer runs that were agreed are not") {
    const TemporaryFolder folder;
    json job = complete_job();
    auto& runs = job["series"][0]["runs"];
    runs = {runs[0], runs[1]};
    CHECK(codes_at_machine(checked(folder, job)) == std::vector<std::string>{"limit-lacks-readings", "too-few-runs"});
    job["evaluation"]["agreed"] = {"one run each way"};
    CHECK(codes_at_machine(checked(folder, job)) == std::vector<std::string>{"limit-lacks-readings"});
    job["series"][0]["tolerances"][0]["parameter"] = "E";
    CHECK(codes_at_machine(checked(folder, job)) == std::vector<std::string>{});
}

TEST_CASE("a limit that the document alone keeps from a decision is for the desk") {
    const TemporaryFolder folder;
    json job = complete_job();
    job["evaluation"]["decision_rule"] = "guard-band";
    job["series"][0]["tolerances"][0]["parameter"] = "E";
    const json found = checked(folder, job);
    CHECK(codes_at_machine(found) == std::vector<std::string>{});
    const auto& lines = found.at("before_leaving");
    CHECK(std::any_of(lines.begin(), lines.end(), [](const auto& line) { return line.at("code") == "limit-lacks-papers"; }));
}

TEST_CASE("a trace without runs and readings that give no result are missed") {
    const TemporaryFolder folder;
    json job = complete_job();
    auto& series = job["series"][0];
    series.erase("tolerances");
    json empty = job;
    for (auto& run : empty["series"][0]["runs"]) run["deviations"] = json::array({nullptr, nullptr, nullptr, nullptr, nullptr, nullptr});
    CHECK(has(codes_at_machine(checked(folder, empty)), "series-without-result"));
    series.erase("runs");
    series.erase("targets");
    series["trace"] = {{"samples", {{0, 0.0}, {1, 0.1}, {2, 0.2}}}};
    CHECK(codes_at_machine(checked(folder, job)) == std::vector<std::string>{"trace-without-runs"});
}

TEST_CASE("on a terminal check answers in ten lines, the most important first, and with --all in full") {
    const TemporaryFolder folder;
    const std::string file = folder.file("job.json", awkward_job("EXX", "A").dump());
    const std::string sentence = json::parse(called_with("check --json " + file).out).at("last_line");
    std::string site = on_terminal("", "check " + file).out;
    site.erase(std::remove(site.begin(), site.end(), '\r'), site.end());
    CHECK(std::count(site.begin(), site.end(), '\n') == 10);
    CHECK_THAT(site, Catch::Matchers::StartsWith("1. the limit on A of series x is not evaluated") && EndsWith("\n" + sentence + "\n"));
    CHECK_THAT(site, Contains("[limit-lacks-readings]\n   series x (/series/0/tolerances): measure what is missing\n") &&
                         Contains("more at the machine; --all"));
    std::string all = on_terminal("", "check --all " + file).out;
    all.erase(std::remove(all.begin(), all.end(), '\r'), all.end());
    CHECK(all == called_with("check " + file).out);
    CHECK_THAT(all, Contains("What the data support:\n") && EndsWith("\n" + sentence + "\n"));
}

TEST_CASE("a beam that does not follow the axis is told, but not where a squareness asks for its slope") {
    const TemporaryFolder folder;
    json job = complete_job();
    auto& series = job["series"][0];
    series.erase("tolerances");
    series["id"] = "xy";
    series["error"] = "EYX";
    series["targets"] = {0, 100, 200, 300, 400, 500};
    for (auto& run : series["runs"]) run["deviations"] = {0, 50.4, 100, 150.4, 200, 250.2};
    CHECK(has(codes_at_machine(checked(folder, job)), "reference-not-along-axis"));
    json axis = job["machine"]["axes"][0], other = series;
    axis["name"] = "Y";
    job["machine"]["axes"].push_back(axis);
    other["id"] = "yx";
    other["error"] = "EXY";
    job["series"].push_back(other);
    job["squareness"] = {{{"axes", {"X", "Y"}}, {"series", {"xy", "yx"}}}};
    CHECK_FALSE(has(codes_at_machine(checked(folder, job)), "reference-not-along-axis"));
}
