#include "gather/mapping/mapping.hpp"
#include "document/read_document.hpp"
#include "gather/draft/document_order.hpp"
#include "gather/draft/node.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::gather;

namespace {

std::vector<std::string> faults_of(const std::string& mapping) {
    std::vector<std::string> lines;
    try {
        (void)read_mapping(mapping, "m.json");
    } catch (const input::InputRejected& rejected) {
        for (const auto& problem : rejected.problems()) lines.push_back(input::to_text(problem));
    }
    return lines;
}

std::string text_again(const std::string& json) {
    const input::Json read = input::read_json(json, "x.json");
    return written(node_of(read.root));
}

}  // namespace

TEST_CASE("open places of a mapping are told alone, each with what belongs there") {
    const auto faults = faults_of(R"({"format": "wayfolio-mapping", "version": 1,
 "series": [{"id": "x", "error": "EXX", "unit": "?", "position_unit": "mm", "sign": "?", "colour": 1}],
 "exports": [{"file": "x.csv", "approach": {"column": "D", "positive": ["?"], "negative": ["-"]}}]})");
    REQUIRE(faults.size() == 3);
    CHECK(faults[0] ==
          "m.json:2:49: /series/0/unit: found an open place; expected the unit of the readings: um, mm, in, uin, urad, "
          "arcsec, deg, um/m "
          "(the "
          "export does not say it, and nothing is guessed)");
    CHECK_THAT(faults[1], Catch::Matchers::Contains("/series/0/sign: found an open place; expected actual-minus-target or"));
    CHECK_THAT(faults[2], Catch::Matchers::Contains("/exports/0/approach/positive/0: found an open place; expected the words "
                                                    "that mean"));
}

TEST_CASE("all other faults of a mapping are told at once, at their places") {
    const auto faults = faults_of(R"({"format": "wayfolio-mapping", "version": 1,
 "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm", "sign": "actual-minus-target"}],
 "exports": [{"file": "x.csv", "delimiter": "::", "values": [{"series": "xx", "column": "D"}]}]})");
    REQUIRE(faults.size() == 4);
    CHECK_THAT(faults[0], Catch::Matchers::Contains("m.json:3:14: /exports/0: found no approach"));
    CHECK_THAT(faults[1], Catch::Matchers::Contains("/exports/0: found no position"));
    CHECK_THAT(faults[2], Catch::Matchers::Contains("m.json:3:45: /exports/0/delimiter: found \"::\""));
    CHECK_THAT(faults[3], Catch::Matchers::Contains("/exports/0/values/0/series: found \"xx\"") &&
                              Catch::Matchers::Contains("expected a series of this mapping: x"));
}

TEST_CASE("patterns of file names") {
    CHECK(matches("x-*.csv", "x-1.csv"));
    CHECK(matches("*", ""));
    CHECK(matches("*a*b*", "xxaxbx"));
    CHECK_FALSE(matches("x-*.csv", "x-1.csv.bak"));
    CHECK_FALSE(matches("x.csv", "X.csv"));
}

TEST_CASE("a document keeps the numbers that it was written with, and its order") {
    CHECK(text_again(R"({"b":22.10,"a":[1,2.50,null,true],"c":"q\"\\\u0001\u00e9"})") ==
          "{\"b\": 22.10, \"a\": [1, 2.50, null, true], \"c\": \"q\\\"\\\\\\u0001\u00e9\"}\n");
    CHECK(text_again(
              R"({"runs":[{"deviations":[1.0000000000,2.0000000000,3.0000000000,4.0000000000,5.000000000,6.00000000,7.0000000]},[]]})") ==
          "{\n  \"runs\": [\n"
          "    {\"deviations\": [1.0000000000, 2.0000000000, 3.0000000000, 4.0000000000, 5.000000000, 6.00000000, "
          "7.0000000]},\n    []\n  "
          "]\n}\n");
}

TEST_CASE("a member is set in its place of the schema's order") {
    constexpr std::array<std::string_view, 3> order{"id", "unit", "runs"};
    Node node = object_node({named("id", string_node("x")), named("x-own", string_node("y")), named("runs", array_node())});
    node.set("unit", string_node("um"), order);
    node.set("id", string_node("z"), order);
    CHECK(written(node) == "{\"id\": \"z\", \"x-own\": \"y\", \"unit\": \"um\", \"runs\": []}\n");
    CHECK(node.says_the_same(node_of(input::read_json(R"({"unit": "um", "runs": [], "id": "z", "x-own": "y"})", "").root)));
    CHECK_FALSE(node.says_the_same(node_of(input::read_json(R"({"unit": "um", "runs": [1], "id": "z", "x-own": "y"})", "").root)));
}

TEST_CASE("keys of a gathered document stand in the order of its schema") {
    const std::string text(document::document_schema());
    const Node schema = node_of(input::read_json(text, "").root);
    const auto keys_of = [](const Node& of) {
        std::vector<std::string_view> keys;
        for (const Node& key : of.member("properties")->items) keys.emplace_back(key.key);
        return keys;
    };
    CHECK(std::ranges::equal(keys_of(schema), document_keys));
    CHECK(std::ranges::equal(keys_of(*schema.member("definitions")->member("job")), job_keys));
    CHECK(std::ranges::equal(keys_of(*schema.member("definitions")->member("series")), series_keys));
    CHECK(std::ranges::equal(keys_of(*schema.member("definitions")->member("environment")), environment_keys));
}
