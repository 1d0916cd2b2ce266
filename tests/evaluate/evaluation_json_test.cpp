#include "evaluate/written/evaluation_json.hpp"
#include "support/evaluations.hpp"
#include "units/version.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio;
using Json = nlohmann::ordered_json;

namespace {

std::string text_of(const document::Document& document) { return evaluation_json(document, evaluate::evaluate(document)); }
Json json_of(const document::Document& document) { return Json::parse(text_of(document)); }
Json json_of(const document::Series& series) { return json_of(support::document(series))["series"][0]; }

std::vector<std::string> keys(const Json& object) {
    std::vector<std::string> keys;
    for (const auto& [key, value] : object.items()) keys.push_back(key);
    return keys;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("the head of an evaluation says what was evaluated, by what") {
    auto document = support::document(support::series("EXX", {0}, {{1}}, {}));
    document.sha256 = std::string(64, 'a');
    document.job.number = "K-2041";
    document.job.revision = 1;
    const auto json = json_of(document);
    CHECK(json["format"] == "wayfolio-evaluation");
    CHECK(json["version"] == 1);
    CHECK(json["document"] == Json{{"sha256", std::string(64, 'a')}, {"job", "K-2041"}, {"revision", 1}});
    CHECK(json["program"] == Json{{"name", "wayfolio"}, {"version", std::string(version())}});
}

TEST_CASE("a parameter names its value, unit and the targets that set it") {
    const auto json = json_of(support::series("EXX", {0, 100.5}, {{1, 9}}, {{-1, 6}}));
    const Json expected{
        {"value", 10},
        {"unit", "um"},
        {"set_by",
         {{{"position", 100.5}, {"approach", "positive"}, {"side", "max"}, {"level", 9}},
          {{"position", 0}, {"approach", "negative"}, {"side", "min"}, {"level", -1}}}},
        {"scatter_bias",
         {{"not_evaluated",
           "one run in each approach: the standard deviation of the readings is not known, nor what it adds to this value"}}}};
    CHECK(json["parameters"]["E"] == expected);
    CHECK(keys(json["parameters"]) == Words{"E", "E_positive", "E_negative", "B", "B_mean", "M"});
    CHECK(json["not_evaluated"]["A"] == "one run in each approach; at least two are needed");
    CHECK(keys(json["not_evaluated"]) == Words{"A", "A_positive", "A_negative", "R", "R_positive", "R_negative"});
}

TEST_CASE("a value that cannot be had is absent from its target, never null or zero") {
    const auto json = json_of(support::series("EXX", {0, 100}, {{1, support::missing}}, {}));
    CHECK(keys(json["targets"][0]) == Words{"position", "n_positive", "n_negative", "mean_positive"});
    CHECK(keys(json["targets"][1]) == Words{"position", "n_positive", "n_negative"});
    CHECK(json["missing"] == Json::array({{{"run", 0}, {"target", 1}}}));
}

TEST_CASE("deviations stand in the series' own unit and positions as written") {
    const auto json = json_of(support::series("EXX", {0.1, 10.3}, {{0.001, 0.002}}, {}, units::inch, units::position_inch));
    CHECK(json["unit"] == "in");
    CHECK(json["position_unit"] == "in");
    CHECK(json["targets"][1]["position"] == 10.3);
    CHECK(json["parameters"]["E_positive"]["unit"] == "in");
    CHECK(json["parameters"]["E_positive"]["value"].get<double>() == Approx(0.001).epsilon(1e-14));
    CHECK(json["parameters"]["E_positive"]["set_by"][0]["position"] == 10.3);
}

TEST_CASE("numbers are the shortest text that reads back as the same double") {
    const auto text = text_of(support::document(support::series("EXX", {0, 250}, {{0.1, 1e-7}}, {})));
    CHECK(text.find("\"mean_positive\": 0.1\n") != std::string::npos);
    CHECK(text.find("\"mean_positive\": 1e-07\n") != std::string::npos);
    CHECK(text.find("\"position\": 250,\n") != std::string::npos);
}

TEST_CASE("an excluded reading is listed with its reason, by its places in the document") {
    auto series = support::series("EXX", {100, 0}, {{1, 2}, {3, 4}}, {});
    series.runs[1].excluded.push_back({0, "crane"});
    CHECK(json_of(series)["excluded"] == Json::array({{{"run", 1}, {"target", 0}, {"reason", "crane"}}}));
}

TEST_CASE("a series with stated values only has no values, no counts and the stated numbers") {
    document::Series series = support::series("EXX", {}, {}, {});
    const units::Deviation twelve(12.5, units::micrometre);
    series.stated = {{"A", twelve, units::Deviation(0.05, units::micrometre)}};
    series.stated_targets = {{.position = units::Position(5, units::position_millimetre), .mean = {.positive = twelve}}};
    const auto json = json_of(series);
    CHECK(json["source"] == "stated");
    CHECK(json["parameters"] == Json{{"A", {{"unit", "um"}, {"stated", 12.5}}}});
    CHECK(json["targets"] == Json::array({{{"position", 5}, {"mean_positive", 12.5}}}));
    CHECK(json["not_evaluated"]["A"] == "stated, not recomputed");
}

TEST_CASE("bytes that are no UTF-8 in a name do not end the program") {
    auto series = support::series("EXX", {0}, {{1}}, {});
    series.state =
        "as\xff"
        "found";
    CHECK(json_of(series)["state"] == "as\uFFFDfound");
}

TEST_CASE("the same document gives the same text") {
    const auto document = support::document(support::series("EXX", {0, 100}, {{1, 2}, {2, 3}}, {{0, 1}, {1, 1}}));
    CHECK(text_of(document) == text_of(document));
}
