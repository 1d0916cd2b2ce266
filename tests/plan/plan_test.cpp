#include "plan/plan.hpp"

#include "document/read_document.hpp"
#include "gather/draft/node.hpp"
#include "input/problem.hpp"

#include <fmt/format.h>
#include <rapidcheck.h>
#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::plan;
using Catch::Matchers::Contains;

namespace {

Range millimetres(double to) { return {0, to, units::position_millimetre}; }
Range degrees(double to) { return {0, to, units::position_degree}; }

PlanRequest request_of(const char* error, const Range& range) { return {.errors = {*document::error_symbol(error)}, .range = range}; }

std::string condition_of(const Planned& planned, std::string_view name) {
    for (const auto& condition : planned.conditions)
        if (condition.name == name) return !condition.holds ? "open" : *condition.holds ? "met" : "not met";
    return "not asked";
}

gather::FactsFile facts_of(const std::string& members) {
    const auto nothing = [](const std::string& name) -> std::string { throw input::InputMissing(name, "is not there"); };
    return {"facts.json", "f/facts.json", R"({"format": "wayfolio-facts", "version": 1, )" + members + "}", nothing};
}

}  // namespace

TEST_CASE("as many targets as the standard asks for at least") {
    CHECK(least_targets(millimetres(300)) == 5);
    CHECK(least_targets(millimetres(1000)) == 5);
    CHECK(least_targets(millimetres(1001)) == 6);
    CHECK(least_targets(millimetres(2000)) == 10);
    CHECK(least_targets(millimetres(2001)) == 10);
    CHECK(least_targets(millimetres(6400)) == 27);
    CHECK(least_targets({0, 40, units::position_inch}) == 6);
    CHECK(least_targets(degrees(90)) == 3);
    CHECK(least_targets(degrees(180)) == 5);
    CHECK(least_targets(degrees(181)) == 8);
    CHECK(least_targets(degrees(360)) == 8);
    CHECK(least_targets(degrees(720)) == 17);
}

TEST_CASE("targets begin and end at the ends, rise, keep four tenths of the interval apart, and are never evenly spaced") {
    CHECK(rc::check([] {
        const double to = *rc::gen::inRange(50, 20'000);
        const auto count = static_cast<std::size_t>(*rc::gen::inRange(3, 200));
        const auto seed = *rc::gen::arbitrary<std::uint64_t>();
        const std::vector<double> targets = target_positions(millimetres(to), count, seed);
        RC_ASSERT(targets.size() == count);
        RC_ASSERT(targets.front() == 0);
        RC_ASSERT(targets.back() == to);
        const double interval = to / static_cast<double>(count - 1), rounding = 0.1;
        for (std::size_t i = 1; i < count; ++i)
            RC_ASSERT(targets[i] - targets[i - 1] >= interval * (1 - 2 * random_part) - rounding - 1e-9);
    }));
}

TEST_CASE("one seed gives one plan, another seed another, and an error of the interval's period is met at all its phases") {
    const auto targets = target_positions(millimetres(6400), 27, 1);
    CHECK(targets == target_positions(millimetres(6400), 27, 1));
    CHECK(targets != target_positions(millimetres(6400), 27, 2));
    // Where an even spacing sees one phase of a sine of its own period, these see it from end to end.
    double low = 1, high = -1;
    for (const double target : targets) {
        const double value = std::sin(2 * 3.14159265358979 * target / (6400.0 / 26));
        low = std::min(low, value);
        high = std::max(high, value);
    }
    CHECK(low < -0.9);
    CHECK(high > 0.9);
    CHECK(targets[1] == Approx(192.5).margin(1e-12));  // the engine is the C++ standard's: the same on every machine
}

TEST_CASE("a rotary axis has its principal positions among the targets, and a whole turn ends before it begins again") {
    const auto turn = target_positions(degrees(360), 8, 1);
    CHECK(turn.size() == 8);
    for (const double principal : {0.0, 90.0, 180.0, 270.0}) CHECK(std::ranges::find(turn, principal) != turn.end());
    CHECK(turn.back() < 360);
    const auto part = target_positions({-30, 100, units::position_degree}, 5, 3);
    CHECK(part.front() == -30);
    CHECK(part.back() == 100);
    for (const double principal : {0.0, 90.0}) CHECK(std::ranges::find(part, principal) != part.end());
    CHECK(std::ranges::is_sorted(part));
}

TEST_CASE("a plan says which conditions of the standard it meets, axis by axis") {
    const Planned axis = plan::plan(request_of("EXX", millimetres(1000)));
    CHECK(condition_of(axis, "targets_per_metre") == "met");
    CHECK(condition_of(axis, "random_spacing") == "met");
    CHECK(condition_of(axis, "runs") == "met");
    PlanRequest few = request_of("EXX", millimetres(1000));
    few.runs = 3;
    few.targets = 4;
    CHECK(condition_of(plan::plan(few), "runs") == "not met");
    CHECK(condition_of(plan::plan(few), "targets") == "not met");
    const Planned long_axis = plan::plan(request_of("EXX", millimetres(6400)));
    CHECK(condition_of(long_axis, "mean_interval") == "met");
    CHECK(condition_of(long_axis, "one_approach_each_way") == "not met");
    const Planned rotary = plan::plan(request_of("ECC", degrees(360)));
    CHECK(condition_of(rotary, "principal_positions") == "met");
    CHECK(condition_of(rotary, "runs") == "met");
    CHECK(condition_of(plan::plan(request_of("EXV", millimetres(500))), "targets_per_metre") == "met");
}

TEST_CASE("time is travel by feed and dwell at every target, for every run of every series") {
    PlanRequest request = request_of("EXX", millimetres(6000));
    request.errors.push_back(*document::error_symbol("EYX"));
    request.states = {"as-found", "as-left"};
    CHECK_FALSE(plan::plan(request).time);
    request.feed = 6000;
    request.dwell_s = 4;
    const Planned planned = plan::plan(request);
    REQUIRE(planned.time);
    CHECK(planned.time->run_s == 60 + 25 * 4);
    CHECK(planned.time->series_s == 10 * 160);
    CHECK(planned.time->all_s == 4 * 1600);
    CHECK_THAT(plan_text(planned), Contains("Time: a run 2 min 40 s, a series 27 min, all 4 series 1 h 47 min (6000 mm at 6000 mm/min"));
    CHECK(duration_words(59.2) == "60 s");
    CHECK(duration_words(3601) == "1 h 1 min");
}

TEST_CASE("facts give the plan its travel, feed, limits and machine, and are told where they are wrong") {
    PlanRequest request{.errors = {*document::error_symbol("EXX")}};
    CHECK_THROWS_WITH(plan::plan(request), Contains("found no travel of X"));
    PlanRequest crowded = request_of("EXX", millimetres(1));
    crowded.targets = 100;
    CHECK_THROWS_WITH(plan::plan(crowded), Contains("/series/0/targets: found 100 targets, two of which are one"));
    request.facts = {facts_of(R"("machine": {"serial": "D-1", "axes": [{"name": "X", "travel": {"from": 0, "to": 800, "unit": "mm"}}]},
      "setup": {"feed_mm_per_min": 3000, "dwell_s": 3},
      "limits": [{"error": "EXX", "tolerances": [{"parameter": "A", "limit": 7, "unit": "um"}]}])")};
    const Planned planned = plan::plan(request);
    CHECK(planned.targets.back() == 800);
    CHECK(planned.machine == "D-1");
    REQUIRE(planned.time);
    CHECK(planned.time->run_s == 16 + 5 * 3);
    CHECK_THAT(planned.document, Contains(R"("tolerances": [{"parameter": "A", "limit": 7, "unit": "um"}])") && Contains("\"facts\": ["));
    request.feed = 4000;
    CHECK_THROWS_WITH(plan::plan(request),
                      Contains("f/facts.json:2:36: /setup/feed_mm_per_min: found 3000; expected the same as at the command line"));
    request.feed.reset();
    request.facts = {facts_of(R"("machine": {"axes": [{"name": "Y"}]}, "setup": {"checks": [{"name": "offset", "axis": "Z"}]})")};
    request.range = millimetres(100);
    CHECK_THROWS_WITH(plan::plan(request), Contains("f/facts.json:1:") && Contains("/setup/checks/0/axis: found \"Z\""));
}
