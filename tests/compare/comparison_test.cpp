#include "compare/comparison.hpp"
#include "document/read_document.hpp"
#include "support/run.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <functional>

using namespace wayfolio;
using Catch::Matchers::Contains;
using Json = nlohmann::json;

namespace {

std::string no_side_files(const std::string& name) { throw std::logic_error("the sample names no side file, yet " + name + " was asked for"); }

/// A document and its evaluation, kept together.
struct Kept {
    explicit Kept(const Json& json)
        : document(document::read_document(json.dump(), "job.json", no_side_files)), evaluation(evaluate::evaluate(document)) {}
    document::Document document;
    evaluate::Evaluation evaluation;
};

Json file(const std::string& name) { return Json::parse(support::file_bytes(std::string(WAYFOLIO_SOURCE_FOLDER) + "/sample-results/" + name)); }

/// One state of a document that holds both.
Json only_state(Json document, const std::string& state) {
    Json series = Json::array();
    for (const Json& one : document["series"])
        if (one["state"] == state) series.push_back(one);
    document["series"] = series;
    for (const char* by_series : {"compensation", "squareness", "uncertainty"}) document.erase(by_series);
    return document;
}

Json sample() { return file("short-axis.json"); }

compare::Comparison compared(const Json& was, const Json& now) {
    const Kept before(was), after(now);
    return compare::compare({"old.json", before.document, before.evaluation}, {"new.json", after.document, after.evaluation});
}

Json& positioning(Json& document) { return document["series"][0]; }

const compare::ParameterChange& named(const compare::Comparison& comparison, const std::string& series, const std::string& parameter) {
    const auto found = std::ranges::find_if(comparison.parameters, [&](const auto& change) { return change.series == series && change.parameter == parameter; });
    if (found == comparison.parameters.end()) throw std::runtime_error("no result " + parameter);
    return *found;
}

const compare::ParameterChange& change_of(const compare::Comparison& comparison, const std::string& parameter) { return named(comparison, "x-exx-found", parameter); }

}  // namespace

TEST_CASE("two documents that say the same do not differ, in whatever order their keys stand") {
    Json twin;
    const Json original = sample();
    for (auto item = original.crbegin(); item != original.crend(); ++item) twin[item.key()] = *item;
    const auto comparison = compared(original, twin);
    CHECK(comparison.same());
    CHECK_THAT(compare::comparison_text(comparison), Contains("Nothing differs"));
    CHECK(Json::parse(compare::comparison_json(comparison))["same"] == true);
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
    CHECK(*change.against_U == Approx(std::abs(change.difference->in(change.unit)) / std::hypot(change.expanded_was->in(change.unit), change.expanded_now->in(change.unit))));
}

TEST_CASE("other runs are another measurement, and their readings are not paired") {
    Json now = sample();
    positioning(now)["runs"].erase(9);
    const auto comparison = compared(sample(), now);
    REQUIRE(comparison.readings.size() == 1);
    CHECK_FALSE(comparison.readings[0].same_plan);
    CHECK_THAT(compare::comparison_text(comparison), Contains("another measurement"));
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
    CHECK(comparison.verdicts[0].was == "pass");
    CHECK(comparison.verdicts[0].now == "fail");
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
    const auto slope = std::ranges::find_if(comparison.parameters, [](const auto& change) { return change.series == "x-ezx-found" && change.parameter == "slope"; });
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
    for (const auto& verdict : comparison.verdicts) CHECK((!verdict.was.empty() && !verdict.now.empty()));
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

TEST_CASE("a squareness is compared with its U, and counts among the parameters that differ") {
    Json now = file("two-axes.json");
    Json& error = now["squareness"][0]["square"]["error_urad"];
    error = -error.get<double>();
    const auto comparison = compared(file("two-axes.json"), now);
    const auto& change = named(comparison, "", "squareness of X and Y");
    CHECK(change.difference->in(units::microradian) == Approx(2 * error.get<double>()));
    CHECK(change.expanded_was.has_value());
    CHECK(change.yardstick == compare::Yardstick::LargerU);
    CHECK_THAT(compare::comparison_text(comparison), Contains("Results: 1 of ") && Contains("EC0Y") && Contains("squareness of X and Y: undecided -> pass"));
    const Json told = Json::parse(compare::comparison_json(comparison))["parameters"].back();
    CHECK(told["axes"] == Json::array({"X", "Y"}));
    CHECK(told["difference"] == change.difference->in(units::microradian));
    CHECK_FALSE(told.contains("series"));
}

TEST_CASE("a squareness that only one side asks for is told with the reason") {
    Json now = file("two-axes.json");
    now.erase("squareness");
    const auto comparison = compared(file("two-axes.json"), now);
    const auto& change = named(comparison, "", "squareness of X and Y");
    CHECK(change.was.has_value());
    CHECK(change.reason_now == "no such squareness on this side");
}

TEST_CASE("of two squarenesses of the same axes each is compared with its own, and so are their verdicts") {
    Json was = file("two-axes.json");
    Json again = was["squareness"][0];
    for (Json& id : again["series"]) id = id.get<std::string>() + "-2";
    for (const char* id : {"x-eyx-found", "y-exy-found"})
        for (const Json& series : Json(was["series"]))
            if (series["id"] == id) {
                Json copy = series;
                copy["id"] = std::string(id) + "-2";
                copy["state"] = "as-left";
                was["series"].push_back(copy);
            }
    was["squareness"].push_back(again);
    Json now = was;
    now["squareness"][1]["tolerance"]["limit"] = 5;
    now["squareness"][1]["square"]["error_urad"] = 8;
    const auto comparison = compared(was, now);
    CHECK_FALSE(named(comparison, "", "squareness of X and Y from x-eyx-found and y-exy-found").differs());
    CHECK(named(comparison, "", "squareness of X and Y from x-eyx-found-2 and y-exy-found-2").differs());
    REQUIRE(comparison.verdicts.size() == 1);
    CHECK_THAT(comparison.verdicts[0].parameter, Contains("x-eyx-found-2"));
}

TEST_CASE("local straightness is compared for each length and line, with its U") {
    const auto comparison = compared(sample(), with_a_bend());
    for (const char* line : {"end-point chord", "minimum zone"}) {
        const auto& change = named(comparison, "x-eyx-found", std::string("local over 300 mm, ") + line);
        CHECK(change.difference->in(units::micrometre) > 1);
        CHECK((change.expanded_was && change.expanded_now && change.against_U));
        CHECK(change.length_mm == 300.0);
    }
    Json other_length = sample();
    other_length["evaluation"]["local_straightness_mm"] = {400};
    const auto lengths = compared(sample(), other_length);
    const auto& added = named(lengths, "x-ezx-found", "local over 400 mm, minimum zone");
    CHECK(added.now.has_value());
    CHECK(added.reason_was == "no window of this length on this side");
}

TEST_CASE("results at the tool point are compared beside the measured ones, without a U") {
    const auto comparison = compared(sample(), with_a_bend());
    const auto& there = named(comparison, "x-eyx-found", "straightness at the tool point");
    CHECK(there.difference->in(units::micrometre) > 1);
    CHECK_FALSE(there.expanded_now.has_value());
    CHECK(there.now != named(comparison, "x-eyx-found", "straightness").now);
    CHECK_FALSE(named(comparison, "x-exx-found", "E at the tool point").differs());
    const Json told = Json::parse(compare::comparison_json(comparison))["parameters"];
    const auto entry = std::ranges::find_if(told, [](const Json& one) { return one["parameter"] == "straightness at the tool point"; });
    REQUIRE(entry != told.end());
    CHECK(((*entry)["at_tool_point"] == true && (*entry)["name"] == "straightness"));
}
