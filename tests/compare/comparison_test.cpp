#include "compare/comparing.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace wayfolio;
using namespace wayfolio::comparing;
using Catch::Matchers::Contains;

TEST_CASE("two documents that say the same do not differ, in whatever order their keys stand") {
    Json twin;
    const Json original = sample();
    for (auto item = original.crbegin(); item != original.crend(); ++item) twin[item.key()] = *item;
    const auto comparison = compared(original, twin);
    CHECK(comparison.same());
    CHECK_THAT(compare::comparison_text(comparison), Contains("Nothing differs"));
    CHECK(Json::parse(compare::comparison_json(comparison, {}))["same"] == true);
}

TEST_CASE("internal remarks and a writer's own keys are no difference") {
    Json now = sample();
    now["job"]["internal"] = {{"remarks", Json::array({"call again in May"})}};
    now["x-tool"] = "another writer";
    CHECK(compared(sample(), now).changes.empty());
}

TEST_CASE("a reading set aside in a re-analysis is told, and its effect is held against the larger U of the same readings") {
    Json now = sample();
    positioning(now)["runs"][0]["excluded"] = Json::array({{{"target", 12}, {"reason", "invented: a truck passed"}}});
    const auto comparison = compared(sample(), now);
    REQUIRE(comparison.readings.size() == 1);
    CHECK(comparison.readings[0].series == "x-exx-found");
    CHECK(comparison.readings[0].set_aside == 1);
    CHECK(comparison.readings[0].other_values == 0);
    const auto& change = change_of(comparison, "R");
    REQUIRE(change.difference.has_value());
    REQUIRE(std::abs(change.difference->in(change.unit)) > 0.01);
    CHECK(change.difference->in(change.unit) == Approx(change.now->in(change.unit) - change.was->in(change.unit)));
    CHECK(change.yardstick == compare::Yardstick::LargerU);
    const double larger = std::max(change.expanded_was->in(change.unit), change.expanded_now->in(change.unit));
    CHECK(*change.against_U == Approx(std::abs(change.difference->in(change.unit)) / larger));
    CHECK(comparison.changes.empty());
}

TEST_CASE("a second measurement is held against the root of the sum of squares") {
    Json now = sample();
    for (auto& run : positioning(now)["runs"])
        for (auto& reading : run["deviations"])
            if (reading.is_number()) reading = reading.get<double>() * 1.5;
    const auto comparison = compared(sample(), now);
    REQUIRE(comparison.readings.size() == 1);
    CHECK(comparison.readings[0].other_values > 100);
    CHECK(comparison.readings[0].largest->in(units::micrometre) > 1);
    const auto& change = change_of(comparison, "E");
    CHECK(change.now->in(change.unit) == Approx(1.5 * change.was->in(change.unit)));
    CHECK(change.yardstick == compare::Yardstick::RootSumSquare);
    CHECK(*change.against_U == Approx(std::abs(change.difference->in(change.unit)) /
                                      std::hypot(change.expanded_was->in(change.unit), change.expanded_now->in(change.unit))));
}

TEST_CASE("uncertainties with different k are held against each other as standard uncertainties") {
    const auto stated = [](Json json, double expanded, double factor) {
        json["uncertainty"]["stated"] = Json::array(
            {{{"series", "x-exx-found"}, {"parameter", "E"}, {"expanded", expanded}, {"unit", "um"}, {"coverage_factor", factor}}});
        json["evaluation"]["coverage"] = "k2";
        return json;
    };
    // u = 1 on either side: U 3 with k 3 is no larger than U 2 with k 2.
    Json now = stated(sample(), 2, 2);
    positioning(now)["runs"][0]["excluded"] = Json::array({{{"target", 1}, {"reason", "door opened"}}});
    const auto same_readings = compared(stated(sample(), 3, 3), now);
    CHECK(change_of(same_readings, "E").factors_differ());
    CHECK(change_of(same_readings, "E").expanded_difference->in(units::micrometre) == Approx(2));
    for (auto& reading : positioning(now)["runs"][1]["deviations"])
        if (reading.is_number()) reading = reading.get<double>() + 1;
    const auto other_readings = compared(stated(sample(), 3, 3), now);
    CHECK(change_of(other_readings, "E").expanded_difference->in(units::micrometre) == Approx(2 * std::sqrt(2.0)));
    CHECK_THAT(compare::comparison_text(other_readings), Contains("U old and U new were given with different k"));
    const Json json = Json::parse(compare::comparison_json(other_readings, {}));
    const auto told = std::ranges::find_if(json["parameters"], [](const Json& one) {
        return one["parameter"] == "E" && one.value("series", "") == "x-exx-found";
    });
    CHECK((*told)["k_was"] == 3);
    CHECK((*told)["U_difference"].get<double>() == Approx(2 * std::sqrt(2.0)));
}

TEST_CASE("other runs are another measurement, and their readings are not paired") {
    Json now = sample();
    positioning(now)["runs"].erase(9);
    const auto comparison = compared(sample(), now);
    REQUIRE(comparison.readings.size() == 1);
    CHECK_FALSE(comparison.readings[0].same_plan);
    CHECK_THAT(compare::comparison_text(comparison), Contains("a different measurement"));
}

TEST_CASE("a limit that moved is told with the verdict that moved with it") {
    Json now = sample();
    for (auto& tolerance : positioning(now)["tolerances"])
        if (tolerance["parameter"] == "A") tolerance["limit"] = 1;
    const auto comparison = compared(sample(), now);
    REQUIRE(comparison.changes.size() == 1);
    CHECK_THAT(comparison.changes[0].pointer, Contains("/series/0/tolerances/"));
    CHECK(comparison.changes[0].of == "x-exx-found");
    CHECK(comparison.changes[0].now == "1");
    REQUIRE(comparison.verdicts.size() == 1);
    CHECK(comparison.verdicts[0].parameter == "A");
    CHECK(comparison.verdicts[0].was == evaluate::Standing::Inside);
    CHECK(comparison.verdicts[0].now == evaluate::Standing::Outside);
    CHECK(change_of(comparison, "A").difference->in(units::micrometre) == 0);
}

TEST_CASE("a series with another id is paired by its error, one without a counterpart is named") {
    Json now = sample();
    positioning(now)["id"] = "x-this-year";
    now["series"].erase(5);
    for (const char* by_series : {"compensation", "squareness", "uncertainty"}) now.erase(by_series);
    Json was = sample();
    for (const char* by_series : {"compensation", "squareness", "uncertainty"}) was.erase(by_series);
    const auto comparison = compared(was, now);
    REQUIRE(comparison.paired_by_error.size() == 1);
    CHECK(comparison.paired_by_error[0].now == "x-this-year");
    CHECK(comparison.paired_by_error[0].was == "x-exx-found");
    CHECK(comparison.only_was.size() == 1);
    CHECK(comparison.only_now.empty());
    CHECK(comparison.readings.empty());
}

TEST_CASE("a value that one side cannot have is told with the reason, and not compared") {
    Json now = sample();
    Json& runs = positioning(now)["runs"];
    for (std::size_t i = runs.size(); i-- > 0;)
        if (runs[i]["approach"] == "negative") runs.erase(i);
    const auto comparison = compared(sample(), now);
    const auto& change = change_of(comparison, "B");
    CHECK(change.was.has_value());
    CHECK_FALSE(change.now.has_value());
    CHECK_FALSE(change.difference.has_value());
    CHECK_FALSE(change.reason_now.empty());
    CHECK_THAT(compare::comparison_text(comparison), Contains("new: " + change.reason_now));
}

TEST_CASE("a slope is compared in \u00b5m/m, as it is evaluated, not in the unit of its readings") {
    Json now = sample();
    now["evaluation"]["straightness_reference"] = "end-point";
    const auto comparison = compared(sample(), now);
    const auto slope = std::ranges::find_if(
        comparison.parameters, [](const auto& change) { return change.series == "x-ezx-found" && change.parameter == "slope"; });
    REQUIRE(slope != comparison.parameters.end());
    CHECK(std::string(slope->unit.symbol) == "\u00b5m/m");
    const Kept kept(now);
    CHECK(slope->now == *evaluate::value_of(evaluate::find_parameter(kept.evaluation.series[2], "slope")->value));
}

TEST_CASE("as found is compared with as left where the states stand in two documents") {
    const Json both = file("long-axis.json");
    const auto comparison = compared(only_state(both, "as-found"), only_state(both, "as-left"));
    CHECK(comparison.series_compared == comparison.paired_by_error.size());
    REQUIRE(comparison.series_compared > 0);
    CHECK(comparison.paired_by_error[0].state_was == "as-found");
    CHECK(comparison.paired_by_error[0].state_now == "as-left");
    CHECK_FALSE(comparison.readings.empty());
    CHECK(std::ranges::any_of(comparison.parameters, &compare::ParameterChange::differs));
    REQUIRE_FALSE(comparison.verdicts.empty());
    for (const auto& verdict : comparison.verdicts) CHECK((verdict.outcome_was && verdict.outcome_now));
    CHECK_THAT(compare::comparison_text(comparison), Contains("(as-found against as-left)"));
}

TEST_CASE("series of one id that measure different errors are never compared with each other") {
    Json now = sample();
    for (auto& series : now["series"]) {
        if (series["id"] == "x-eyx-found") series["id"] = "kept-aside";
        else if (series["id"] == "x-ezx-found") series["id"] = "x-eyx-found";
    }
    for (auto& series : now["series"])
        if (series["id"] == "kept-aside") series["id"] = "x-ezx-found";
    Json was = sample();
    for (Json* side : {&was, &now}) (*side).erase("uncertainty");
    const auto comparison = compared(was, now);
    CHECK(comparison.series_compared == was["series"].size());
    REQUIRE(comparison.paired_by_error.size() == 2);
    for (const auto& pair : comparison.paired_by_error) CHECK(pair.was != pair.now);
    CHECK(comparison.readings.empty());  // each found the readings of its own error
    for (const auto& change : comparison.changes) CHECK_THAT(change.pointer, Catch::Matchers::EndsWith("/id"));
    CHECK(comparison.changes.size() == 2);
}

TEST_CASE("where nothing measures the same, that is said, and no verdict is told as changed") {
    const auto comparison = compared(sample(), file("rotary-axis.json"));
    CHECK(comparison.series_compared == 0);
    CHECK(comparison.verdicts.empty());
    const std::string text = compare::comparison_text(comparison);
    CHECK_THAT(text, Contains("are not compared"));
    CHECK_THAT(text, !Contains("Readings: the same"));
}

TEST_CASE("the same readings in other units are the same readings") {
    Json now = sample();
    Json& series = positioning(now);
    series["unit"] = "uin";
    series["position_unit"] = "in";
    for (auto& target : series["targets"]) target = std::round(target.get<double>() / 25.4 * 1e6) / 1e6;  // six decimals of an inch
    for (auto& run : series["runs"])
        for (auto& reading : run["deviations"])
            if (reading.is_number()) reading = reading.get<double>() / 0.0254;
    const auto comparison = compared(sample(), now);
    CHECK(comparison.readings.empty());
    CHECK(std::ranges::none_of(comparison.parameters, &compare::ParameterChange::differs));
    CHECK_FALSE(comparison.changes.empty());  // the units are told
    CHECK(comparison.verdicts.empty());
}

TEST_CASE("a place in the document is a JSON Pointer that leads there") {
    Json now = sample();
    now["instruments"][0]["certificate"] = "invented 99";
    const auto comparison = compared(sample(), now);
    REQUIRE(comparison.changes.size() == 1);
    CHECK(now.at(Json::json_pointer(comparison.changes[0].pointer)) == "invented 99");
    CHECK(comparison.changes[0].of == now["instruments"][0]["id"].get<std::string>());
}

namespace {

/// With one reading of the straightness in Y moved by 40 micrometres.
Json with_a_bend() {
    Json now = sample();
    for (Json& series : now["series"])
        if (series["id"] == "x-eyx-found") series["runs"][0]["deviations"][4] = series["runs"][0]["deviations"][4].get<double>() + 40;
    return now;
}

}  // namespace
