#include "report/blocks/blocks.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

/// X with a pitch that grows by 20 µrad over the travel, on a line `tz` mm below the tool point: EXX there gains 20 µrad x tz.
support::Reported pitched(double tz, bool with_pitch = true) {
    auto exx = support::series("EXX", {0, 500, 1000}, {{0, 1, 2}, {0, 1, 2}}, {{0, 1, 2}, {0, 1, 2}});
    auto ezx = support::series("EZX", {0, 500, 1000}, {{0, 3, 0}}, {{0, 3, 0}});
    auto ebx = support::series("EBX", {0, 500, 1000}, {{0, 10, 20}}, {{0, 10, 20}}, units::microradian);
    exx.id = "x-exx";
    ezx.id = "x-ezx";
    ebx.id = "x-ebx";
    auto document = support::document(exx);
    document.series.push_back(ezx);
    if (with_pitch) document.series.push_back(ebx);
    document.setup.emplace().lines.push_back({"X", {}, std::array<double, 3>{0, 0, tz}});
    for (auto& series : document.series) series.measurement_line = 0;
    return {.document = std::move(document)};
}

}  // namespace

TEST_CASE("the tool point page says what moves most and stands measured and moved results side by side") {
    // 20 µrad at an arm of 150 mm is 3 µm: E of 2 µm becomes 5 µm. [rigid body, closed form]
    const auto reported = pitched(150);
    const auto blocks = report::tool_points(reported.subject());
    REQUIRE(blocks.size() == 1);
    const auto& panels = std::get<report::Panels>(blocks[0]);
    CHECK(panels.opening.lead.words() ==
          "At the functional point the angular error motions change positioning of X by 3\u202fµm over the travel; E becomes 5\u202fµm "
          "instead of 2\u202fµm.");
    CHECK_THAT(panels.opening.body.words(), Contains("An additional result beside the measured one"));
    const std::string words = support::words_of(panels.sections);
    CHECK_THAT(words, Contains("Result|measured|at the functional point, additional|change|"));
    CHECK_THAT(words, Contains("Positioning EXX, systematic positioning error E / µm|2|5|3|"));
    CHECK_THAT(words, Contains("EBX 3\u202fµm: range of its effect, across its own axis"));
    CHECK_THAT(words, Contains("EXX + EBX tZ \u2212 ECX tY") &&
                          Contains("(0.0, 0.0, 150.0)\u202fmm, from the measurement line to the functional point"));
}

TEST_CASE("the Abbe curve is drawn with its largest value marked and its change over the travel measured") {
    const auto reported = pitched(150);
    const auto panels = std::get<report::Panels>(report::tool_points(reported.subject()).at(0));
    REQUIRE(panels.panels.size() == 1);
    const auto& plot = panels.panels[0].plot;
    CHECK(plot.targets[1].one_way.positive.mean->in(units::micrometre) == Approx(1.5));
    REQUIRE(plot.ticks.size() == 2);
    CHECK(plot.ticks[0].target == 2);
    CHECK(plot.ticks[1].target == 0);
    CHECK((plot.brackets.at(0).high - plot.brackets.at(0).low).in(units::micrometre) == Approx(3));
    CHECK_THAT(
        plot.alternative,
        Contains("Over the travel and both approaches it changes by 3\u202fµm, lowest at 0\u202fmm, highest at 1\u202f000\u202fmm."));
}

TEST_CASE("the zero of an angle changes neither the largest effect nor a word about it") {
    auto turned = pitched(150);
    for (auto& run : turned.document.series[2].runs)
        for (auto& reading : run.deviations) reading = *reading - units::Deviation(150, units::microradian);
    turned.evaluation = evaluate::evaluate(turned.document);
    const auto reported = pitched(150);
    const auto one = std::get<report::Panels>(report::tool_points(reported.subject()).at(0));
    const auto other = std::get<report::Panels>(report::tool_points(turned.subject()).at(0));
    CHECK(one.panels[0].verdict.word.words() == "Range 3\u202fµm");
    CHECK(other.panels[0].verdict.word.words() == one.panels[0].verdict.word.words());
    CHECK(other.panels[0].plot.alternative == one.panels[0].plot.alternative);
    CHECK(other.opening.lead.words() == one.opening.lead.words());
}

TEST_CASE("an offset that gives no angle an arm leaves a straightness as measured, and the page says so") {
    const auto reported = pitched(150);
    const auto panels = std::get<report::Panels>(report::tool_points(reported.subject()).at(0));
    CHECK_THAT(support::words_of(panels.sections),
               Contains("Straightness error EZX stays as measured: no lever arm in this direction."));
}

TEST_CASE("a tool point whose angles were not read gives the reason in place of a figure") {
    auto reported = pitched(150, false);
    reported.document.series.pop_back();  // the straightness, which needs no angle here
    reported.evaluation = evaluate::evaluate(reported.document);
    const auto blocks = report::tool_points(reported.subject());
    REQUIRE(blocks.size() == 1);
    CHECK_THAT(support::words_of(std::get<report::Sections>(blocks[0]).sections),
               Contains("Positioning EXX at the functional point is not evaluated: needs EBX in the same state."));
}
