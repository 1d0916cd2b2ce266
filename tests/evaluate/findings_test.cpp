#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

evaluate::Findings findings_of(const document::Series& series) {
    const document::Document document = support::document(series);
    return evaluate::findings(document, evaluate::evaluate(document));
}

}  // namespace

TEST_CASE("parameters that one run cannot support are told with the reason, on one line") {
    const std::string text = findings_text(findings_of(support::series("EXX", {0, 250, 500}, {{1, 2, 3}}, {{1, 2, 4}})));
    CHECK_THAT(text, Contains("  s: EXX positioning\n    evaluated: "));
    const std::size_t at = text.find("not evaluated: ");
    REQUIRE(at != std::string::npos);
    const std::string reason_line = text.substr(at, text.find('\n', at) - at);
    CHECK_THAT(reason_line, Contains("A") && Contains(", R") && Contains("("));
}

TEST_CASE("what is missing is grouped by purpose and counted") {
    const evaluate::Findings found = findings_of(support::series("EXX", {0, 250, 500}, {{1, 2, 3}}, {}));
    REQUIRE_FALSE(found.lacking.empty());
    const std::string text = findings_text(found), purpose = "  for " + found.lacking.front().purpose + ":";
    CHECK(text.find(purpose) != std::string::npos);
    CHECK(text.find(purpose) == text.rfind(purpose));
    CHECK_THAT(text, Contains("test.json: 0 faults, "));
}

TEST_CASE("findings as JSON keep conditions apart: false where not met, null where the document leaves them open") {
    const evaluate::Findings found = findings_of(support::series("EXX", {0, 250, 500}, {{1, 2, 3}}, {{1, 2, 4}}));
    const auto json = nlohmann::json::parse(findings_json(found));
    REQUIRE(json.at("supports").size() == 1);
    const auto& conditions = json["supports"][0].at("conditions");
    REQUIRE(conditions.size() == found.supports[0].unmet.size());
    for (std::size_t i = 0; i < conditions.size(); ++i)
        CHECK(conditions[i].at("holds").is_null() == !found.supports[0].unmet[i].holds.has_value());
    CHECK(json["supports"][0].at("not_evaluated").contains("A"));
}

TEST_CASE("a fault with bytes that are not UTF-8 still gives valid JSON") {
    const evaluate::Findings found{
        .file = "f", .faults = {{"f", {1, 2, "/a"}, "\"\xff\"", "text", ""}}, .warnings = {}, .lacking = {}, .supports = {}};
    CHECK(nlohmann::json::parse(findings_json(found)).at("faults")[0].at("line") == 1);
    CHECK_THAT(findings_text(found), Contains("f:1:2: /a: found ") && Contains("f: 1 fault\n"));
}

TEST_CASE("check ends with what to look at before leaving, and never corrects anything") {
    // Five runs each way; the third one in positive direction has its sign turned.
    const evaluate::Findings found = findings_of(support::series(
        "EXX", {0, 100, 210, 290, 400, 500},
        {{0, 4, 8, 12, 16, 20}, {0.1, 4, 8.1, 12, 16.1, 20}, {0, -4, -8, -12, -16.1, -20}, {0, 4.1, 8, 12.1, 16, 20.1}},
        {{-1, 3, 7, 11, 15, 19}, {-1, 3.1, 7, 11, 15.1, 19}, {-1.1, 3, 7, 11.1, 15, 19}}));
    const std::string text = findings_text(found);
    CHECK_THAT(text, Contains("Before leaving the machine:\n") && Contains("the sign looks turned") &&
                         Contains("where: series s, run 3 positive (/series/0/runs/2)"));
    CHECK_THAT(text, Contains("\nBefore leaving, settle at the machine: "));
    const auto json = nlohmann::json::parse(findings_json(found));
    CHECK(json.at("before_leaving").size() == found.before_leaving.size());
    for (const char* key : {"code", "about", "what", "where", "how_sure", "do"})
        CHECK_FALSE(json["before_leaving"][0].at(key).get<std::string>().empty());
    CHECK_FALSE(json.at("last_line").get<std::string>().empty());
}
