#include "support/evaluations.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using units::Deviation;
using units::micrometre;

namespace {

document::StatedValue stated(const std::string& parameter, double value, double half) {
    return {parameter, Deviation(value, micrometre), Deviation(half, micrometre)};
}

/// E = 10, B = 3, M = 8.
document::Series measured_and_stated() { return support::series("EXX", {0, 100}, {{1, 9.25}}, {{-0.75, 6.25}}); }

}  // namespace

TEST_CASE("a stated value within half a unit of its last digit agrees") {
    auto series = measured_and_stated();
    series.stated = {stated("E", 10.0, 0.05), stated("B", 2.95, 0.05), stated("M", 7.7, 0.05)};
    const auto evaluation = evaluate::evaluate(support::document(series));
    CHECK(evaluate::find_parameter(evaluation.series[0], "E")->stated->in(micrometre) == 10);
    REQUIRE(evaluation.warnings.size() == 1);
    CHECK(evaluation.warnings[0].pointer == "/series/0/stated/M");
    CHECK(evaluation.warnings[0].text == "stated 7.7 µm, recomputed 7.62 µm");
}

TEST_CASE("exactly half a unit off still agrees, whatever the rounding of doubles") {
    auto series = support::series("EXX", {0, 100}, {{0, 0.35}}, {});
    series.stated = {stated("E_positive", 0.3, 0.05)};
    CHECK(evaluate::evaluate(support::document(series)).warnings.empty());
    series.stated = {stated("E_positive", 0.299, 0.05)};
    CHECK(evaluate::evaluate(support::document(series)).warnings.size() == 1);
}

TEST_CASE("a stated parameter that was not recomputed stands as stated and raises no warning") {
    auto series = measured_and_stated();
    series.stated = {stated("A", 12.5, 0.05), stated("vdi_P", 14, 0.5)};
    const auto evaluation = evaluate::evaluate(support::document(series));
    CHECK(evaluate::find_parameter(evaluation.series[0], "A")->stated->in(micrometre) == 12.5);
    CHECK(support::reason(evaluation.series[0], "A") == "one run in each approach; at least two are needed");
    CHECK(support::reason(evaluation.series[0], "vdi_P") == "stated, not recomputed");
    CHECK(evaluation.warnings.empty());
}

TEST_CASE("a series with stated values only is as stated: nothing is recomputed, the per-target values are taken over") {
    document::Series series = support::series("EXX", {100, 0}, {}, {});
    series.stated = {stated("A", 12.5, 0.05)};
    const units::Position far(100, units::position_millimetre), near(0, units::position_millimetre);
    series.stated_targets = {{.position = far,
                              .mean = {Deviation(5, micrometre), Deviation(2, micrometre)},
                              .s = {Deviation(1, micrometre), Deviation(1, micrometre)}},
                             {.position = near, .mean = {.positive = Deviation(1, micrometre)}}};
    const auto evaluated = support::evaluated(series);
    CHECK(evaluated.source == evaluate::Source::Stated);
    CHECK(support::reason(evaluated, "A") == "stated, not recomputed");
    CHECK(support::reason(evaluated, "E") == "not stated, and no runs to compute it from");
    REQUIRE(evaluated.targets.size() == 2);
    CHECK(evaluated.targets[0].index == 1);
    CHECK_FALSE(evaluated.targets[0].reversal);
    CHECK(evaluated.targets[1].reversal->in(micrometre) == 3);
    CHECK(evaluated.targets[1].R->in(micrometre) == 7);
    CHECK(evaluated.targets[1].one_way.positive.n == 0);
}

TEST_CASE("a trace without runs gives no parameter of the standard: those are of readings at rest") {
    document::Series series = support::series("EXX", {}, {}, {});
    series.trace.emplace().samples = {{units::Position(0, units::position_millimetre), Deviation(1, micrometre)}};
    CHECK(support::reason(support::evaluated(series), "E") == "no runs: parameters are of readings at rest, the trace stands apart");
}
