#include "layouts/layout.hpp"
#include "report/blocks/blocks.hpp"
#include "report/words/passages.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using support::says;

namespace {

document::Document measured() {
    auto document = support::document(support::series("EXX", {0, 100}, {{0, 2}, {0, 4}}, {{0, 1}, {0, support::missing}}));
    document.series[0].runs[1].excluded.push_back({1, "door opened"});
    document.sha256 = "0123abcd";
    return document;
}

struct MethodPage : support::Reported {
    std::string words = support::words_of(report::method_sections(subject())) + support::words_of(report::basis_sections(subject()));
};

}  // namespace

TEST_CASE("the method names every reading that took no part") {
    const MethodPage made{measured()};
    CHECK(says(made.words, "Excluded: EXX: run 2 positive, target 2 (door opened)."));
    CHECK(says(made.words, "One reading is missing and was not replaced; n counts what is there."));
    auto whole = measured();
    whole.series[0].runs[1].excluded.clear();
    CHECK(says(MethodPage{whole}.words, "No reading is excluded."));
}

TEST_CASE("formulas stand only for what was evaluated") {
    const std::string words = MethodPage{measured()}.words;
    CHECK(says(words, "Positioning (ISO 230-2 clause 3), at each target"));
    CHECK(says(words, "over n\u00a0\u2212\u00a01"));
    CHECK_FALSE(says(words, "minimum zone"));
    CHECK_FALSE(says(words, "Squareness:"));
    const MethodPage straight{support::document(support::series("EYX", {0, 100, 200}, {{0, 1, 0}}, {{0, 1, 0}}))};
    CHECK(says(straight.words, "minimum zone, the line about which the range of all means of both approaches is least"));
    CHECK_FALSE(says(straight.words, "Positioning ("));
}

TEST_CASE("readings recorded with the other sign are said to be turned") {
    auto document = measured();
    document.series[0].target_minus_actual = true;
    CHECK(says(MethodPage{document}.words, "EXX was recorded as target minus actual; its signs are changed here."));
}

TEST_CASE("sources stand with their editions, and one sentence names those not compared with the printed text") {
    auto document = measured();
    document.series[0].tolerances.push_back({"E", "specification", units::Deviation(5, units::micrometre), units::micrometre, {}});
    document.evaluation.decision_rule = document::DecisionRule::Iso14253_1;
    document.setup.emplace();
    document::SetupCheck check;
    check.name = "warm-up";
    check.done = true;
    check.basis = "common practice";
    document.setup->checks.push_back(check);
    const MethodPage made{document};
    CHECK(says(made.words, "ISO 230-2:2014: parameters, their names, test conditions."));
    CHECK(says(made.words, "ISO 14253-1:2017: decision rule, 1.65 u."));
    CHECK(says(made.words, "The formulas of ISO 230-2:2014 and ISO 14253-1:2017 were not compared in full with the printed text."));
    CHECK_FALSE(says(made.words, "memory"));
    CHECK(says(made.words, "Common practice, no source: limits of set-up checks that are marked so."));
}

TEST_CASE("program, document and layout stand with versions and hashes") {
    const MethodPage made{measured()};
    CHECK(says(made.words, "Document: 0123abcd"));
    CHECK(says(made.words, "Layout “report”: " + made.layout.sha256));
}

TEST_CASE("as found against as left sums up each axis in one line") {
    auto document = support::document(support::series("EXX", {0, 100}, {{0, 8}, {0, 8}}, {{0, 8}, {0, 8}}));
    document.series[0].id = "found";
    document.series[0].state = "as-found";
    auto left = support::series("EXX", {0, 100}, {{0, 2}, {0, 2}}, {{0, 2}, {0, 2}});
    left.id = "left";
    left.state = "as-left";
    left.tolerances.push_back({"A", "specification", units::Deviation(5, units::micrometre), units::micrometre, {}});
    document.series.push_back(left);
    const MethodPage made{document};
    const auto page = report::states(made.subject());
    REQUIRE(page);
    CHECK(page->opening.lead.words() == "Positioning error fell from 8 to 2\u202fµm.");
    CHECK(page->opening.body.words() == "X: one of one quantity became smaller; as left, one inside.");
}

TEST_CASE("what became smaller by less than the uncertainty of the change is counted apart") {
    const auto measured = [](const char* id, const char* state, double reading) {
        auto series = support::series("EXX", {0, 100}, {{0, reading}, {0, reading}}, {{0, reading}, {0, reading}});
        series.id = id;
        series.state = state;
        return series;
    };
    auto document = support::document(measured("found", "as-found", 8));
    document.series.push_back(measured("left", "as-left", 7));
    for (const char* id : {"found", "left"})
        document.uncertainty.stated.push_back({.series = id,
                                               .parameter = "A",
                                               .expanded = units::Deviation(1, units::micrometre),
                                               .unit = units::micrometre,
                                               .coverage_factor = 2});
    const auto words = [](const document::Document& one) { return report::states(MethodPage{one}.subject())->opening.body.words(); };
    CHECK(words(document).starts_with("X: one of one quantity became smaller, none by more than the uncertainty of the change"));
    document.series[1] = measured("left", "as-left", 9);
    CHECK(words(document).starts_with("X: none of one quantity became smaller"));
}
