#include "compare/comparing.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio;
using namespace wayfolio::comparing;
using Catch::Matchers::Contains;

TEST_CASE("a squareness is compared with its U, and counts among the parameters that differ") {
    Json now = file("two-axes.json");
    Json& error = now["squareness"][0]["square"]["error_urad"];
    error = -error.get<double>();
    const auto comparison = compared(file("two-axes.json"), now);
    const auto& change = named(comparison, "", "squareness of X and Y");
    CHECK(change.difference->in(units::microradian) == Approx(2 * error.get<double>()));
    CHECK(change.expanded_was.has_value());
    CHECK(change.yardstick == compare::Yardstick::LargerU);
    CHECK_THAT(compare::comparison_text(comparison),
               Contains("Results: 1 of ") && Contains("EC0Y") && Contains("squareness of X and Y: Undecided -> Inside"));
    const Json told = Json::parse(compare::comparison_json(comparison, {}))["parameters"].back();
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
    const auto& there = named(comparison, "x-eyx-found", "straightness at the functional point");
    CHECK(there.difference->in(units::micrometre) > 1);
    CHECK_FALSE(there.expanded_now.has_value());
    CHECK(there.now != named(comparison, "x-eyx-found", "straightness").now);
    CHECK_FALSE(named(comparison, "x-exx-found", "E at the functional point").differs());
    const Json told = Json::parse(compare::comparison_json(comparison, {}))["parameters"];
    const auto entry =
        std::ranges::find_if(told, [](const Json& one) { return one["parameter"] == "straightness at the functional point"; });
    REQUIRE(entry != told.end());
    CHECK(((*entry)["at_tool_point"] == true && (*entry)["name"] == "straightness"));
}
