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
    const std::string words = support::words_of(panels.sections);
    CHECK_THAT(words, Contains("Result|measured|at the functional point, additional|change|"));
    CHECK_THAT(words, Contains("Positioning EXX, systematic positioning error E / µm|2|5|3|"));
    CHECK_THAT(words, Contains("Additional: Verdicts, U, A and R stay those of the measured results."));
    CHECK_THAT(words, Contains("EBX 3\u202fµm: range of its effect across its axis"));
    CHECK_THAT(words, Contains("EXX + EBX tZ \u2212 ECX tY") &&
                          Contains("(0.0, 0.0, 150.0)\u202fmm, from the measurement line to the functional point"));
}

TEST_CASE("two states of a tool point stand in one table, and what differs between them is said") {
    auto found = pitched(150).document, both = found;
    for (auto& series : both.series) series.state = "as-found";
    for (auto series : found.series) {
        series.state = "as-left";
        series.id += "-left";
        if (series.error.text() == "EBX")
            for (auto& run : series.runs)
                for (auto& reading : run.deviations) reading = *reading * 0.5;
        both.series.push_back(series);
    }
    const support::Reported reported{.document = std::move(both)};
    const auto blocks = report::tool_points(reported.subject());
    const auto left = std::ranges::find_if(blocks, [](const auto& block) {
        return std::get<report::Panels>(block).opening.label.ends_with("as left");
    });
    REQUIRE(left != blocks.end());
    const std::string words = support::words_of(std::get<report::Panels>(*left).sections);
    CHECK_THAT(words, Contains("Result|measured|moved|change|as found: measured|moved|change|"));
    // Half the pitch: 1.5 µm instead of 3 µm are added to 2 µm.
    CHECK_THAT(words, Contains("systematic positioning error E / µm|2|4|2|2|5|3|"));
    CHECK_THAT(words, Contains("As found: At the functional point the angular error motions change positioning of X by 3\u202fµm"));
    CHECK_THAT(words, Contains("Each angle alone: EBX 3\u202fµm"));
    // It is said there, so it stands nowhere again.
    CHECK(report::tool_point_numbers(reported.subject(), {"x-exx", "x-ezx"}).empty());
}

TEST_CASE("the curve at the tool point is drawn over the measured one, and its own range is measured") {
    const auto reported = pitched(150);
    const auto panels = std::get<report::Panels>(report::tool_points(reported.subject()).at(0));
    REQUIRE(panels.panels.size() == 1);
    const auto& plot = panels.panels[0].plot;
    // As measured 0, 1, 2 µm; 0, 10 and 20 µrad at 150 mm add 0, 1.5 and 3 µm, with a mean of 0: -1.5, 0 and 1.5 µm.
    REQUIRE(plot.pale_means);
    const double measured[] = {0, 1, 2}, there[] = {-1.5, 1, 3.5};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(plot.targets[i].one_way.positive.mean->in(units::micrometre) == Approx(there[i]));
        CHECK(plot.pale_means->targets[i].one_way.positive.mean->in(units::micrometre) == Approx(measured[i]));
    }
    const auto E = std::ranges::find(plot.brackets, "E", &report::Bracket::symbol);
    REQUIRE(E != plot.brackets.end());
    CHECK((E->high - E->low).in(units::micrometre) == Approx(5));
    CHECK(std::ranges::none_of(plot.brackets, [](const auto& bracket) { return bracket.symbol == "A"; }));
    CHECK_FALSE(plot.limit);
    CHECK_THAT(plot.alternative, Contains("over the means as measured in pale lines"));
    CHECK_THAT(plot.alternative, Contains("the effect of the angles changes by 3\u202fµm, lowest at 0\u202fmm, highest at "
                                          "1\u202f000\u202fmm."));
}

TEST_CASE("a straightness at the tool point is drawn about its own line") {
    auto eyx = support::series("EYX", {0, 500, 1000}, {{0, 2, 0}}, {{0, 2, 0}});
    auto eax = support::series("EAX", {0, 500, 1000}, {{0, 10, 40}}, {{0, 10, 40}}, units::microradian);
    eyx.id = "x-eyx";
    eax.id = "x-eax";
    auto document = support::document(eyx);
    document.series.push_back(eax);
    document.setup.emplace().lines.push_back({"X", {}, std::array<double, 3>{0, 0, 100}});
    for (auto& series : document.series) series.measurement_line = 0;
    document.evaluation.straightness_reference = document::ReferenceLine::EndPoint;
    const support::Reported reported{.document = document};
    const auto panels = std::get<report::Panels>(report::tool_points(reported.subject()).at(0));
    // - EAX tZ adds 0, -1 and -4 µm: 0, 1, -4. About the line through its ends that is 0, 3, 0; as measured it is 0, 2, 0.
    const double there[] = {0, 3, 0}, measured[] = {0, 2, 0};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(panels.panels[0].plot.targets[i].one_way.positive.mean->in(units::micrometre) == Approx(there[i]).margin(1e-9));
        CHECK(panels.panels[0].plot.pale_means->targets[i].one_way.positive.mean->in(units::micrometre) ==
              Approx(measured[i]).margin(1e-9));
    }
    CHECK_THAT(panels.caption.words(), Contains("a straightness error about its own line"));
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
