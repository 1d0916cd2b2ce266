#include "evaluate/standing.hpp"
#include "evaluate/uncertainty/conformity.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using document::DecisionRule;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// A document with one tolerance of 25 µm on A, its evaluation saying A = `value`, and U = `expanded` (k = 2) if given.
struct Case {
    document::Document document;
    Evaluation evaluation;
};

Case decided_case(double value, std::optional<double> expanded, std::optional<DecisionRule> rule) {
    document::Series series = support::series("EXX", {0, 100}, {{0, 1}}, {});
    series.tolerances.push_back({"A", "drawing", units::micrometre(25), units::micrometre, {}});
    Case made{support::document(series), {}};
    made.document.evaluation.decision_rule = rule;
    if (expanded) made.document.uncertainty.stated.push_back({"s", "A", units::micrometre(*expanded), units::micrometre, 2});
    SeriesEvaluation evaluated{.id = "s",
                               .state = "as-left",
                               .standard = "ISO 230-2:2014",
                               .error = series.error,
                               .kind = SeriesKind::Positioning,
                               .source = Source::Runs,
                               .unit = units::micrometre,
                               .position_unit = units::position_millimetre};
    evaluated.parameters.push_back({.name = "A", .value = Deviation(units::micrometre(value))});
    made.evaluation.series.push_back(evaluated);
    made.evaluation.uncertainty = evaluate_uncertainty(made.document, made.evaluation.series);
    return made;
}

Decision decision_of(const Case& made) { return decide(made.document, made.evaluation).at(0); }

}  // namespace

TEST_CASE("the probability of conformity agrees with the examples of JCGM 106:2012") {
    CHECK(probability_of_conformity(-5.47, 0.05, {}, -infinite, -5.40) == Approx(0.919243).margin(5e-7));  // 7.3.3 example 1: 0.92
    CHECK(probability_of_conformity(509.7, 8.6, {}, 490, infinite) == Approx(0.98901).margin(5e-6));       // 7.3.3 example 2: 0.99
    CHECK(probability_of_conformity(13.6, 1.8, {}, 12.5, 16.3) == Approx(0.66263).margin(5e-6));           // 7.4: 0.66
    CHECK(probability_of_conformity(106.587609, 0.02 * 106.587609, {}, 100, infinite) ==
          Approx(0.999).margin(1e-8));  // 8.3.3.2: 107 km/h
}

TEST_CASE("few degrees of freedom make the probability of conformity that of Student's t") {
    const auto below = [](double width_in_u, double nu) {
        return probability_of_conformity(10 - width_in_u * 0.5, 0.5, nu, -infinite, 10);
    };
    // The t of one and two degrees of freedom has a closed form: 1/2 + atan(t) / pi, and (1 + t / sqrt(2 + t^2)) / 2.
    CHECK(below(1, 1) == Approx(0.75).margin(1e-12));
    CHECK(below(2.75, 2) == Approx((1 + 2.75 / std::sqrt(2 + 2.75 * 2.75)) / 2).margin(1e-12));
    CHECK(below(2.75, 2) == Approx(0.945).margin(5e-4));  // 0.997 by the normal law
    // Quantiles of GUM table G.2, two-sided 95 % and 99.73 %, printed with two decimals.
    CHECK(below(4.30, 2) == Approx(0.975).margin(2e-4));
    CHECK(below(2.78, 4) == Approx(0.975).margin(2e-4));
    CHECK(below(3.96, 10) == Approx(0.99865).margin(2e-5));
    CHECK(below(2, 1e9) == Approx(probability_of_conformity(9, 0.5, {}, -infinite, 10)).margin(1e-9));
    CHECK(probability_of_conformity(0, 1, 4, -2.776445, 2.776445) == Approx(0.95).margin(1e-6));
    CHECK(probability_of_conformity(12, 0.5, 4, 10, infinite) == Approx(below(4, 4)).margin(1e-12));
}

TEST_CASE("a decision takes the degrees of freedom of its budget") {
    Case made = decided_case(22.25, 2, DecisionRule::Simple);
    made.evaluation.uncertainty.at(0).degrees_of_freedom = 2;
    CHECK(*decision_of(made).probability_of_conformity == Approx(0.9446).margin(5e-5));  // t_2 at 2.75 u
}

TEST_CASE("guard bands carry the risks of table 1 of ILAC-G8:09/2019") {
    // One-sided risk of a value on the acceptance limit, TL = 10, U = 1, k = 2; recomputed values, table entries beside them.
    const auto risk = [](double width_in_U) { return 1 - probability_of_conformity(10 - width_in_U, 0.5, {}, -infinite, 10); };
    CHECK(risk(3) == Approx(1e-9).epsilon(0.02));            // < 1 ppm
    CHECK(risk(1.5) == Approx(0.001349898).epsilon(1e-6));   // < 0,16 %
    CHECK(risk(1) == Approx(0.022750132).epsilon(1e-7));     // < 2,5 %
    CHECK(risk(0.83) == Approx(0.048457226).epsilon(1e-7));  // < 5 %, ISO 14253-1:2017
    CHECK(risk(0) == Approx(0.5));                           // < 50 %
}

TEST_CASE("the guard band of ISO 14253-1:2017 is 1.65 u") {
    CHECK(guard_band(DecisionRule::Iso14253_1, 1, 2) == Approx(0.825));
    CHECK(guard_band(DecisionRule::Iso14253_1, 2.58, 2.58) == Approx(1.65));
    CHECK(guard_band(DecisionRule::Simple, 1, 2) == 0);
    CHECK(guard_band(DecisionRule::NonBinary, 1, 2) == 1);
}

TEST_CASE("the rules of ILAC-G8 give the words of its figures at TL 10, U 1") {
    struct Row {
        double value;
        Outcome binary, both_sides, non_binary;
        double probability;
    };
    using enum Outcome;
    const std::vector<Row> rows{{8.0, Pass, Pass, Pass, 0.999968},
                                {9.0, Pass, Pass, Pass, 0.97725},
                                {9.2, Fail, Undecided, ConditionalPass, 0.945201},
                                {9.5, Fail, Undecided, ConditionalPass, 0.841345},
                                {10.0, Fail, Undecided, ConditionalPass, 0.5},
                                {10.5, Fail, Undecided, ConditionalFail, 0.158655},
                                {11.0, Fail, Undecided, ConditionalFail, 0.02275},
                                {11.2, Fail, Fail, Fail, 0.008198}};
    for (const Row& row : rows) {
        CAPTURE(row.value);
        CHECK(judge(DecisionRule::GuardBand, row.value, 10, 1, 1) == row.binary);
        CHECK(judge(DecisionRule::GuardBandBothSides, row.value, 10, 1, 1) == row.both_sides);
        CHECK(judge(DecisionRule::NonBinary, row.value, 10, 1, 1) == row.non_binary);
        CHECK(probability_of_conformity(row.value, 0.5, {}, -infinite, 10) == Approx(row.probability).margin(5e-7));
    }
}

TEST_CASE("an edge that doubles cannot hold exactly is still on its better side") {
    CHECK(judge(DecisionRule::GuardBand, 0.3, 0.1 + 0.2, 0, 0) == Outcome::Pass);
    CHECK(judge(DecisionRule::Simple, 0.1 + 0.2, 0.3, 0, 0) == Outcome::Pass);  // 0.1 + 0.2 is above 0.3 in binary
    CHECK(judge(DecisionRule::GuardBand, 0.7 + 0.1, 1.1, 0.3, 0.3) == Outcome::Pass);
    CHECK(judge(DecisionRule::GuardBandBothSides, 1.1 + 2.2, 3.0, 0.3, 0.3) == Outcome::Undecided);
    CHECK(judge(DecisionRule::Simple, 0.3000001, 0.3, 0, 0) == Outcome::Fail);
}

TEST_CASE("a decision carries margin, margin after U and the probability") {
    const Decision decision = decision_of(decided_case(22.13, 2.1, DecisionRule::GuardBandBothSides));
    CHECK(decision.outcome == Outcome::Pass);
    CHECK(decision.acceptance_limit->in(units::micrometre) == Approx(22.9));
    CHECK(decision.margin->in(units::micrometre) == Approx(2.87));
    CHECK(decision.margin_after_U->in(units::micrometre) == Approx(0.77));
    CHECK(*decision.probability_of_conformity == Approx(0.99687).margin(1e-5));  // Phi(2.87 / 1.05)
}

TEST_CASE("without a rule in the document acceptance is simple and said to be a default") {
    const Decision decision = decision_of(decided_case(25, std::nullopt, std::nullopt));
    CHECK(decision.outcome == Outcome::Pass);
    CHECK(decision.rule == DecisionRule::Simple);
    CHECK_FALSE(decision.rule_stated);
    CHECK_FALSE(decision.probability_of_conformity);
}

TEST_CASE("a rule that needs U gives no verdict without one") {
    const Decision decision = decision_of(decided_case(3, std::nullopt, DecisionRule::GuardBand));
    CHECK(decision.outcome == Outcome::NotDecided);
    CHECK_FALSE(decision.reason.empty());
}

TEST_CASE("a parameter that is not evaluated gives no verdict, with its reason") {
    Case made = decided_case(3, 1, DecisionRule::Simple);
    made.evaluation.series[0].parameters[0].value = NotEvaluated{"one run in each approach"};
    const Decision decision = decision_of(made);
    CHECK(decision.outcome == Outcome::NotDecided);
    CHECK(decision.reason == "one run in each approach");
}

TEST_CASE("a limit in another unit of the same kind decides alike") {
    Case made = decided_case(24, 2.1, DecisionRule::NonBinary);
    made.document.series[0].tolerances[0].limit = units::millimetre(0.025);
    made.document.series[0].tolerances[0].unit = units::millimetre;
    const Decision decision = decision_of(made);
    CHECK(decision.outcome == Outcome::ConditionalPass);
    CHECK(decision.margin->in(units::micrometre) == Approx(1));
    made.document.series[0].tolerances[0].limit = units::arcsecond(5);
    made.document.series[0].tolerances[0].unit = units::arcsecond;
    CHECK(decision_of(made).outcome == Outcome::NotDecided);
}

TEST_CASE("a signed result is judged by its magnitude, with a limit on either side") {
    Case made = decided_case(3, std::nullopt, DecisionRule::Simple);
    made.document.series[0].tolerances[0].parameter = "B_mean";
    made.document.series[0].tolerances[0].limit = units::micrometre(2);
    made.document.uncertainty.stated.push_back({"s", "B_mean", units::micrometre(2), units::micrometre, 2});
    made.evaluation.series[0].parameters[0] = {.name = "B_mean", .value = Deviation(units::micrometre(-3))};
    made.evaluation.uncertainty = evaluate_uncertainty(made.document, made.evaluation.series);
    const Decision decision = decision_of(made);
    CHECK(decision.outcome == Outcome::Fail);
    CHECK(decision.margin->in(units::micrometre) == Approx(-1));
    CHECK(*decision.probability_of_conformity == Approx(0.15865497).margin(1e-6));  // Phi(-1) - Phi(-5)
}

TEST_CASE("local straightness is decided on the window the tolerance names") {
    Case made = decided_case(3, std::nullopt, DecisionRule::Simple);
    made.document.series[0].tolerances[0].parameter = "local";
    made.document.series[0].tolerances[0].length_mm = 300;
    made.document.series[0].tolerances[0].limit = units::micrometre(2);
    const auto at = [](double mm) { return Position(mm, units::position_millimetre); };
    made.evaluation.series[0].local = {
        {units::millimetre(300), units::micrometre(2.1), at(0), at(300), document::ReferenceLine::EndPoint},
        {units::millimetre(300), units::micrometre(1.9), at(0), at(300), document::ReferenceLine::MinimumZone}};
    CHECK(decision_of(made).outcome == Outcome::Fail);  // end-point chord unless the document's line is the minimum zone
    made.document.evaluation.straightness_reference = document::ReferenceLine::MinimumZone;
    CHECK(decision_of(made).outcome == Outcome::Pass);
    made.document.series[0].tolerances[0].length_mm = 200;
    CHECK(decision_of(made).outcome == Outcome::NotDecided);
}

TEST_CASE("a squareness tolerance bounds the magnitude of the squareness") {
    Case made = decided_case(3, std::nullopt, DecisionRule::Simple);
    document::SquarenessRequest request{.axes = {"X", "Y"},
                                       .series = {"a", "b"},
                                       .square_error_urad = {},
                                       .square_expanded_urad = {},
                                       .square_coverage_factor = {},
                                       .square_serial = {},
                                       .tolerance = {}};
    request.tolerance = document::Tolerance{"squareness", "specification", units::microradian(20), units::microradian, {}};
    made.document.squareness.push_back(request);
    made.evaluation.squareness.push_back({.axes = request.axes,
                                          .series = request.series,
                                          .symbol = "EC0Y",
                                          .reference_line = document::ReferenceLine::LeastSquares,
                                          .value = units::microradian(-21),
                                          .beyond_right_angle = {},
                                          .square_error = {},
                                          .square_serial = {},
                                          .lines = {}});
    const Decision decision = decide(made.document, made.evaluation).at(1);
    CHECK(decision.outcome == Outcome::Fail);
    CHECK(decision.parameter == "squareness");
    CHECK(decision.margin->in(units::microradian) == Approx(-1));
}

TEST_CASE("a stated uncertainty is never below the stated capability") {
    Case made = decided_case(22, 1.0, DecisionRule::GuardBand);
    made.document.job.laboratory.emplace().capability.push_back({"EXX", "A", units::micrometre(1.2), units::micrometre});
    const auto entries = evaluate_uncertainty(made.document, made.evaluation.series);
    CHECK(entries.at(0).expanded.in(units::micrometre) == Approx(1.2));
    CHECK(entries.at(0).raised_to_capability);
}

TEST_CASE("a value within the guard band of a rule that refuses it is not accepted; over its limit it is outside") {
    const auto standing = [](double value, std::optional<double> expanded, DecisionRule rule) {
        const Decision decision = decision_of(decided_case(value, expanded, rule));
        return standing_of(&decision);
    };
    CHECK(standing(23.9, 1.0, DecisionRule::GuardBand) == Standing::Inside);
    CHECK(standing(24.1, 1.0, DecisionRule::GuardBand) == Standing::NotAccepted);
    CHECK(standing(25, 1.0, DecisionRule::GuardBand) == Standing::NotAccepted);
    CHECK(standing(25.1, 1.0, DecisionRule::GuardBand) == Standing::Outside);
    CHECK(standing(24.1, 1.0, DecisionRule::GuardBandBothSides) == Standing::Undecided);
    CHECK(standing(24.1, 1.0, DecisionRule::NonBinary) == Standing::InsideByLess);
    CHECK(standing(25.1, 1.0, DecisionRule::NonBinary) == Standing::OutsideByLess);
    CHECK(standing(25.1, {}, DecisionRule::Simple) == Standing::Outside);
    CHECK(standing(24.1, {}, DecisionRule::GuardBand) == Standing::NotEvaluated);
    CHECK(standing_of(nullptr) == Standing::NoLimit);
}

TEST_CASE("a series of stated values alone is decided on what is stated; where there are readings, they decide or nothing does") {
    Case made = decided_case(22, 1.0, DecisionRule::GuardBand);
    auto& parameter = made.evaluation.series[0].parameters[0];
    parameter.value = NotEvaluated{"stated, not recomputed"};
    parameter.stated = units::micrometre(24.5);
    CHECK(decision_of(made).outcome == Outcome::NotDecided);
    made.evaluation.series[0].source = Source::Stated;
    const Decision decision = decision_of(made);
    CHECK(decision.stated);
    CHECK(decision.value->in(units::micrometre) == 24.5);
    CHECK(standing_of(&decision) == Standing::NotAccepted);
}
