#include "evaluate/uncertainty/uncertainty.hpp"
#include "support/budgets.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using support::find;
using support::two_targets;
using support::uncertainties;
using support::variance;

TEST_CASE("every positioning parameter is combined as the table says") {
    const auto all = uncertainties(two_targets());
    CHECK(variance(all, "E") == Approx(0.16 + 0.09 + 0.03 + 1));  // (a L + c)^2 + g^2 + 2 d^2 / n + s^2 / n
    CHECK(variance(all, "E_positive") == Approx(0.16 + 0.09 + 0.03 + 1));
    CHECK(variance(all, "E_negative") == Approx(0.16 + 0.09 + 0.03 + 4));
    CHECK(variance(all, "A") == Approx(0.16 + 0.09 + 0.03 + 4 + 16));  // and 4 u(s)^2, u(s)^2 = 8 / 2
    CHECK(variance(all, "M") == Approx(0.16 + 0.09 + 0.015 + 1.25));
    CHECK(variance(all, "B") == Approx(0.03));
    CHECK(variance(all, "B_mean") == Approx(0.015 + 1.25));
    CHECK(variance(all, "R") == Approx(64));  // set by 4 s of one direction: 16 u(s)^2
    CHECK(variance(all, "R_positive") == Approx(16));
}

TEST_CASE("repeatability of both directions carries both scatters and the drift of the reversal") {
    auto document = two_targets();
    document.series[0] = support::series("EXX", {0, 1000}, {{5, 10}, {5, 12}}, {{-5, 9}, {-5, 11}});
    document.series[0].instrument = "laser";
    const auto all = uncertainties(document);  // at 0: |B| = 10, s = 0 both ways: R = 10
    CHECK(variance(all, "R") == Approx(0.03));
    document.series[0] = support::series("EXX", {0, 1000}, {{5, 10}, {5, 12}}, {{-5, 4}, {-5, -6}});
    document.series[0].instrument = "laser";
    const auto set_at_far = uncertainties(document);  // at 1000: 2 sqrt 2 + 2 sqrt 50 + 12 = 28.97 > 4 sqrt 50
    CHECK(variance(set_at_far, "R") == Approx(4 * (1 + 25) + 0.03 + (2 + 50) / 2.0));
}

TEST_CASE("a budget lists every contributor and its shares make one") {
    const auto all = uncertainties(two_targets());
    const ParameterUncertainty& e = *find(all, "E");
    double sum = 0;
    for (const auto& line : e.contributors) sum += line.share;
    CHECK(sum == Approx(1).epsilon(1e-12));
    REQUIRE(e.contributors.size() == 6);
    CHECK(e.contributors[0].name == "instrument, length-proportional");
    CHECK(e.contributors[0].standard.in(units::micrometre) == Approx(0.3));
    CHECK(e.contributors[0].share == Approx(0.3 * 0.4 / 1.28));
    CHECK(e.contributors[1].name == "instrument, constant");
    CHECK(e.contributors[2].name == "set-up repeatability");
    CHECK(e.contributors[2].share == Approx(0.09 / 1.28));
    CHECK(e.contributors[3].name == "standard deviation at 1\u202f000\u202fmm, positive");
    CHECK(e.contributors[5].name == "drift at rest");
}

TEST_CASE("coverage is k = 2, or Student's t with truncated degrees of freedom when 95 per cent are asked for") {
    auto document = two_targets();
    CHECK(find(uncertainties(document), "E")->expanded.in(units::micrometre) == Approx(2 * std::sqrt(1.28)));
    CHECK(find(uncertainties(document), "E")->coverage ==
          Approx(0.7048).margin(5e-5));  // 2 atan(2) / pi: Student's t of one degree is Cauchy's
    document.evaluation.coverage = document::Coverage::Percent95;
    const auto all = uncertainties(document);
    CHECK(find(all, "E")->coverage == Approx(0.95));
    CHECK(find(all, "E")->degrees_of_freedom == 1);  // 1.28^2 / (0.09^2 / 8 + 1 / 1) = 1.64
    CHECK(find(all, "E")->coverage_factor == Approx(12.7062).margin(5e-5));
    CHECK(find(all, "B")->coverage_factor == Approx(1.95996).margin(5e-6));
}

TEST_CASE("the value at the setting targets stands beside the one over the whole travel") {
    auto document = two_targets();
    document.series[0] = support::series("EXX", {0, 1000, 2000}, {{0, 5, 0}, {0, 5, 0}}, {{0, 5, 0}, {0, 5, 0}});
    document.series[0].instrument = "laser";
    const auto all = uncertainties(document);
    CHECK(variance(all, "E") == Approx(0.49 + 0.09 + 0.03));
    CHECK(std::pow(find(all, "E")->standard_at_setting_targets->in(units::micrometre), 2) == Approx(0.16 + 0.09 + 0.03));
    CHECK_FALSE(find(all, "B")->standard_at_setting_targets);
}

TEST_CASE("a stated uncertainty takes the place of the computed one, a capability is never undercut") {
    auto document = two_targets();
    document.uncertainty.stated.push_back({"s", "E", units::micrometre(2.4), units::micrometre, 2});
    document.job.laboratory.emplace().capability = {{"EXX", "E", units::micrometre(1.2), units::micrometre},
                                                    {"EXX", "B", units::micrometre(0.5), units::micrometre}};
    const auto all = uncertainties(document);
    CHECK(find(all, "E")->source == Source::Stated);
    CHECK(find(all, "E")->expanded.in(units::micrometre) == Approx(2.4));
    CHECK_FALSE(find(all, "E")->raised_to_capability);
    CHECK(find(all, "B")->raised_to_capability);
    CHECK(find(all, "B")->expanded.in(units::micrometre) == Approx(0.5));
    CHECK(std::count_if(all.begin(), all.end(), [](const auto& entry) { return entry.parameter == "E"; }) == 1);
}

TEST_CASE("without an instrument's uncertainty or listed contributors there is no budget") {
    auto document = two_targets();
    document.instruments.clear();
    document.uncertainty.contributors.clear();
    CHECK(uncertainties(document).empty());
}

TEST_CASE("equal readings without a drift record give no uncertainty of a reversal, rather than 0") {
    auto document = two_targets();
    document.drift.clear();
    CHECK(find(uncertainties(document), "B") == nullptr);  // set at 0 mm, where no reading scatters
    CHECK(find(uncertainties(document), "B_mean") != nullptr);
}

TEST_CASE("single readings leave their scatter out and the budget says so") {
    auto document = two_targets();
    document.series[0] = support::series("EXX", {0, 1000}, {{0, 10}}, {{-1, 9}});
    document.series[0].instrument = "laser";
    const auto all = uncertainties(document);
    CHECK(variance(all, "E") == Approx(0.16 + 0.09 + 2 * 0.03));
    CHECK(find(all, "E")->notes.back().find("Single readings") == 0);
    CHECK(find(all, "A") == nullptr);
}

TEST_CASE("straightness, slope, angle and local straightness have budgets of their own") {
    auto document = two_targets();
    document.uncertainty.contributors.clear();
    document.drift.clear();
    document.series = {support::series("EYX", {0, 500, 1000}, {{0, 3, 1}, {0, 5, 1}}, {{0, 3, 1}, {0, 3, 1}})};
    document.series[0].instrument = "laser";
    const auto all = uncertainties(document);
    // Residual means about the line, largest at 500 positive (s = sqrt 2, n = 2), lowest at an end (s = 0): U = 0.4 + 0.2 um/m.
    CHECK(variance(all, "straightness") == Approx(0.09 + 1));
    // Means 0, 3.5, 1: residuals of least squares -1, 2, -1: s^2 = 6, SUM (x - mean)^2 = 2 x 0.25 m^2; instrument 0.3 um over 1
    // m.
    CHECK(variance(all, "slope", units::micrometre_per_metre) == Approx(6 / 0.5 + 0.09));
    REQUIRE(find(all, "local"));
    CHECK(find(all, "local")->length_mm == 300);
    // Pooled s^2 = 2 / 6, four readings per target: 0.23^2 + 2 s^2 / 4.
    CHECK(variance(all, "local") == Approx(0.23 * 0.23 + 2 * (2.0 / 6) / 4));

    document.series = {support::series("EBX", {0, 1000}, {{0, 4}, {0, 6}}, {{0, 4}, {0, 6}}, units::arcsecond)};
    document.series[0].instrument = "laser";
    const auto angles = uncertainties(document);
    const double s = std::sqrt(2.0) * units::arcsecond.in_base;
    CHECK(variance(angles, "angle", units::microradian) == Approx(0.09 + s * s / 2));
    CHECK(find(angles, "angle")->unit == DeviationUnit(units::arcsecond));
}

TEST_CASE("Monte Carlo stands beside first-order propagation where it is asked for, over the lengths of the printed U") {
    auto document = two_targets();
    // A steep shape of little scatter: the targets that set E stay the same in every trial, and both ways must agree. E is largest over
    // half of the travel, and U counts all of it.
    const auto rows = [](double middle) {
        support::Rows made;
        for (int run = 0; run < 5; ++run) {
            const double by = 0.01 * run;
            made.push_back({by, middle + by, 50 + by});
        }
        return made;
    };
    document.series[0] = support::series("EXX", {0, 500, 1000}, rows(100), rows(101));
    document.series[0].instrument = "laser";
    document.uncertainty.contributors[0].degrees_of_freedom.reset();
    document.evaluation.monte_carlo = document::MonteCarloRequest{200000, 7};
    const auto all = uncertainties(document);
    const ParameterUncertainty& e = *find(all, "E");
    REQUIRE(e.monte_carlo);
    const auto& made = std::get<MonteCarloResult>(*e.monte_carlo);
    CHECK(made.standard.in(units::micrometre) == Approx(e.standard->in(units::micrometre)).epsilon(0.01));
    CHECK(made.standard.in(units::micrometre) > 1.1 * e.standard_at_setting_targets->in(units::micrometre));
    CHECK(made.agrees);
    CHECK(made.expanded == e.expanded);
    CHECK_FALSE(value_of(*find(all, "E_positive")->monte_carlo));
}

TEST_CASE("limits are drawn as limits, also where they are called normal, and without their degrees of freedom") {
    auto document = two_targets();
    support::Rows rows(5, {0, 100});
    document.series[0] = support::series("EXX", {0, 1000}, rows, rows);
    document.drift.clear();
    auto& setup = document.uncertainty.contributors[0];
    setup.form = document::Contributor::Form::HalfWidth;
    setup.value = 5;
    document.evaluation.monte_carlo = document::MonteCarloRequest{200000, 7};
    const auto all = uncertainties(document);
    const ParameterUncertainty& e = *find(all, "E");
    CHECK(e.contributors.at(0).distribution == "rectangular");
    const auto& made = std::get<MonteCarloResult>(e.monte_carlo.value());
    CHECK(e.expanded.in(units::micrometre) == Approx(10 / std::sqrt(3.0)));       // 5.77 by first order and k = 2
    CHECK(made.high.in(units::micrometre) - 100 == Approx(4.772).margin(0.02));  // the exact half interval of 95.45 %
    CHECK_FALSE(made.agrees);
    CHECK(made.printed == MonteCarloResult::Printed::Wider);
    CHECK(made.covered == 1);
    CHECK_THAT(e.notes.back(), Catch::Contains("takes the limits of set-up repeatability as exact"));
}

TEST_CASE("an uncertainty that is not simulated says why, wherever Monte Carlo is asked for") {
    auto document = two_targets();
    document.evaluation.monte_carlo = document::MonteCarloRequest{1000, 7};
    document.uncertainty.stated.push_back({"s", "B", units::micrometre(1), units::micrometre, 2});
    for (const ParameterUncertainty& entry : uncertainties(document)) {
        CAPTURE(entry.parameter);
        REQUIRE(entry.monte_carlo);
        const std::string& reason = std::get<NotEvaluated>(*entry.monte_carlo).reason;
        const bool simulated = entry.parameter == "A" || entry.parameter == "E" || entry.parameter == "R" || entry.parameter == "M";
        CHECK_THAT(reason, Catch::StartsWith(entry.parameter == "B" ? "stated by the document"
                                             : simulated            ? "fewer than four readings"
                                                                    : "only A, E, R, B and M"));
    }
}
