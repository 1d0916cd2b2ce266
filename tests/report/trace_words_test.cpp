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

TEST_CASE("what a trace says is one paragraph: samples, passes, range, what was found at targets") {
    CHECK(words_of_trace(there_and_back("EXX", {50})) ==
          "The trace on the fly of EXX has 1\u202f201\u00a0samples in 1\u00a0positive pass and 1\u00a0negative pass, unfiltered: range "
          "2.997\u202fµm, from 0.000\u202fµm at 0\u202fmm to 2.997\u202fµm at 99.833\u202fmm. Between passes the largest reversal is "
          "−1.000\u202fµm at 50\u202fmm.");
}

TEST_CASE("a straightness trace names its three lines, and a trace that is none says why") {
    CHECK_THAT(words_of_trace(there_and_back("EYX", {})),
               Catch::Matchers::Contains("by the line through both ends") && Catch::Matchers::Contains("by least squares over the way") &&
                   Catch::Matchers::Contains("by the minimum zone"));
    auto resting = there_and_back("EXX", {50});
    resting.trace->samples.erase(resting.trace->samples.begin() + 1, resting.trace->samples.end());
    CHECK_THAT(words_of_trace(resting),
               Catch::Matchers::Contains("has 1\u00a0sample, unfiltered: 0\u202fµm at 0\u202fmm.") && !Catch::Matchers::Contains("range") &&
                   Catch::Matchers::EndsWith("No pass is evaluated: one sample: the axis did not move."));
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
    CHECK_THAT(words, Contains(" Filtered by a Gaussian low-pass with a cut-off of 10\u202fmm (weights of "
                               "ISO\u00a016610-21; half of a wave as long as the cut-off goes through; the first and the "
                               "last 10\u202fmm of each pass are left out), range "));
    CHECK_THAT(words, Contains(" Local straightness error of the samples, by the minimum zone of windows along the passes: ") &&
                          Contains("over 40\u202fmm, from ") && Contains("(more than the limit of 0.500\u202fµm)"));
    CHECK_THAT(words, Contains("Straightness error of the filtered values: ") && Contains("(the limit is 0.500\u202fµm)"));
    CHECK_THAT(words, !Contains("300\u202fmm"));  // not asked for, and too long
    series.trace->cutoff = 60;
    CHECK_THAT(words_of_trace(series), Contains(" Filtered values are not evaluated: no pass is longer than two cut-off lengths of 60 mm"));
}

TEST_CASE("a trace without runs has no table of readings, and no line that it is said to be drawn from") {
    const support::Reported reported{support::document(there_and_back("EYX", {0, 50}))};
    const auto model = report::build(reported.subject());
    for (const auto& block : model.blocks) CHECK_FALSE(std::holds_alternative<report::Readings>(block));
    for (const auto& block : model.blocks)
        if (const auto* const panels = std::get_if<report::Panels>(&block))
            CHECK_THAT(panels->opening.body.words(), Catch::Matchers::StartsWith("What is drawn was recorded on the fly; no line"));
}
