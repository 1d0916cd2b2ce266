#include "report/build.hpp"
#include "report/words/passages.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;

namespace {

/// There with y = x / 50, back with 1 µm more.
document::Series there_and_back(const std::string& error, const std::vector<double>& targets) {
    document::Series series = support::series(error, targets, {}, {});
    series.trace.emplace();
    const auto add = [&](double x, double y) {
        series.trace->samples.push_back({units::Position(x, units::position_millimetre), units::Deviation(y, units::micrometre)});
    };
    for (int i = 0; i <= 600; ++i) add(i / 6.0, i / 300.0);
    for (int i = 599; i >= 0; --i) add(i / 6.0, i / 300.0 + 1);
    return series;
}

std::string words_of_trace(const document::Series& series) {
    const support::Reported reported{support::document(series)};
    return report::trace_words(reported.subject().views.at(0));
}

}  // namespace

TEST_CASE("what a trace says of positioning is one sentence: samples, passes, range, what was found at targets") {
    CHECK(words_of_trace(there_and_back("EXX", {50})) ==
          "The trace on the fly of EXX: samples 1\u202f201 in 1\u00a0positive pass and 1\u00a0negative pass, unfiltered; range "
          "2.997\u202fµm, from 0.000\u202fµm at 0\u202fmm to 2.997\u202fµm at 99.833\u202fmm; reversal largest between passes "
          "−1.000\u202fµm at 50\u202fmm.");
}

TEST_CASE("a straightness trace names its three lines, and a trace that is none says why") {
    CHECK_THAT(words_of_trace(there_and_back("EYX", {})),
               Catch::Matchers::Contains("by the line through both ends") && Catch::Matchers::Contains("by least squares over the way") &&
                   Catch::Matchers::Contains("by the minimum zone"));
    auto resting = there_and_back("EXX", {50});
    resting.trace->samples.erase(resting.trace->samples.begin() + 1, resting.trace->samples.end());
    CHECK_THAT(words_of_trace(resting),
               Catch::Matchers::Contains("samples 1, unfiltered; value 0\u202fµm at 0\u202fmm;") && !Catch::Matchers::Contains("range") &&
                   Catch::Matchers::EndsWith("not evaluated passes: one sample: the axis did not move."));
    CHECK(words_of_trace(support::series("EXX", {0, 1}, {{1, 2}}, {})).empty());
}

TEST_CASE("filtered values are said to be filtered, by what, and what is left out; local straightness stands beside its limit") {
    using Catch::Matchers::Contains;
    document::Series series = there_and_back("EYX", {});
    series.trace->cutoff = 10;
    series.tolerances.push_back({.parameter = "local", .source = "", .limit = units::Deviation(0.5, units::micrometre),
                                 .unit = units::micrometre, .length_mm = 40});
    series.trace->samples[300].value = units::Deviation(1.8, units::micrometre);  // 0.8 above the line
    const std::string words = words_of_trace(series);
    CHECK_THAT(words, Contains("; filter Gaussian low-pass with a cut-off of 10\u202fmm (weights of "
                               "ISO\u00a016610-21; half of a wave as long as the cut-off goes through; the first and the "
                               "last 10\u202fmm of each pass are left out); filtered, range "));
    CHECK_THAT(words, Contains("; local straightness by the minimum zone of windows along the passes: ") &&
                          Contains("over 40\u202fmm, from ") && Contains("(more than the limit of 0.500\u202fµm)"));
    CHECK_THAT(words, Contains("; filtered, straightness ") && Contains("(the limit is 0.500\u202fµm)"));
    CHECK_THAT(words, !Contains("300\u202fmm"));  // not asked for, and too long
    series.trace->cutoff = 60;
    CHECK_THAT(words_of_trace(series), Contains("; filtered values not evaluated: no pass is longer than two cut-off lengths of 60 mm"));
}

TEST_CASE("a trace without runs has no table of readings, and no line that it is said to be drawn from") {
    const support::Reported reported{support::document(there_and_back("EYX", {0, 50}))};
    const auto model = report::build(reported.subject());
    for (const auto& block : model.blocks) CHECK_FALSE(std::holds_alternative<report::Readings>(block));
    for (const auto& block : model.blocks)
        if (const auto* const panels = std::get_if<report::Panels>(&block))
            CHECK_THAT(panels->opening.body.words(), Catch::Matchers::StartsWith("What is drawn was recorded on the fly; no line"));
}

TEST_CASE("below a straightness its trace stands fact by fact, each window in a line of its own; no paragraph repeats it") {
    document::Series series = there_and_back("EYX", {0, 50, 100});
    series.trace->cutoff = 10;
    document::Document document = support::document(series);
    document.evaluation.local_straightness_mm = {20, 40};
    const support::Reported reported{std::move(document)};
    const auto section = report::trace_section(reported.subject().views.at(0));
    REQUIRE(section);
    const auto& facts = std::get<report::FactTable>(section->parts.at(0)).facts;
    std::vector<std::string> names;
    for (const report::Fact& fact : facts) names.push_back(fact.name);
    CHECK(names == std::vector<std::string>{"Samples", "Range", "Straightness", "Local straightness", "Reversal", "Filter",
                                            "Filtered, range", "Filtered, straightness", "Filtered, local straightness"});
    for (const report::Fact& fact : facts)
        if (fact.name.ends_with("ocal straightness")) CHECK(fact.lines.size() == 3);  // what it is by, then two windows
    const auto model = report::build(reported.subject());
    for (const auto& block : model.blocks)
        if (const auto* const panels = std::get_if<report::Panels>(&block))
            CHECK_THAT(panels->opening.body.words(), !Catch::Matchers::Contains("trace"));
    const support::Reported untraced{support::document(support::series("EXX", {0, 1}, {{1, 2}}, {}))};
    CHECK_FALSE(report::trace_section(untraced.subject().views.at(0)));
}

TEST_CASE("where only a window has a limit, it is not said that no limit is set") {
    document::Series series = support::series("EYX", {0, 200, 400, 600}, {{0, 1, 1, 0}}, {{0, 1, 1.2, 0}});
    series.tolerances.push_back({.parameter = "local", .source = "order", .limit = units::Deviation(5, units::micrometre),
                                 .unit = units::micrometre, .length_mm = 300});
    const support::Reported reported{support::document(series)};
    bool seen = false;
    for (const auto& block : report::build(reported.subject()).blocks)
        if (const auto* const panels = std::get_if<report::Panels>(&block)) {
            seen = true;
            CHECK_THAT(panels->opening.lead.words(), Catch::Matchers::EndsWith("; no limit is set over the whole travel."));
            CHECK(panels->panels.at(0).verdict.head.words() == "no limit set over the whole travel");
        }
    CHECK(seen);
}
