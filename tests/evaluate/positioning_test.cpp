#include "support/evaluations.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace wayfolio;
using document::Approach;
using support::reason;
using support::value;
using units::micrometre;

namespace {

// Constructed for this project: every expected value follows by hand from the definitions of ISO 230-2 clause 3; s are exact.
const std::vector<double> exact_targets{7.125, 106.5, 209.875, 311.25, 404.625};
const support::Rows exact_positive{{-1, 1, 4, 3.5, 1}, {-1, 1, 4, 3.5, 1}, {0, 3, 5, 4, 2}, {1, 5, 6, 4.5, 3}, {1, 5, 6, 4.5, 3}};
const support::Rows exact_negative{
    {-3, -1, 2, -3, -3.5}, {-3, -1, 0, -3, -3.5}, {-2, 0, 2, -1, -3}, {-1, 1, 0, 1, -2.5}, {-1, 1, 1, 1, -2.5}};
const std::map<std::string, double> exact_parameters{
    {"A", 12},     {"A_positive", 9}, {"A_negative", 8},    {"E", 8},    {"E_positive", 5}, {"E_negative", 4},
    {"R", 10},     {"R_positive", 8}, {"R_negative", 8},    {"B", 5},    {"M", 4},          {"vdi_P", 13.25},
    {"vdi_Pa", 4}, {"vdi_Ps", 9},     {"vdi_Ps_mean", 6.6}, {"vdi_U", 5}};

support::Rows raised(support::Rows rows, double constant) {
    for (auto& row : rows)
        for (double& reading : row) reading += constant;
    return rows;
}

evaluate::SeriesEvaluation evaluated_with_older(const document::Series& series) {
    auto document = support::document(series);
    document.evaluation.also = {document::OlderStandard::Iso230_2_1988, document::OlderStandard::VdiDgq3441_1977};
    return evaluate::evaluate(document).series.front();
}

const evaluate::SetBy& setter(const evaluate::SeriesEvaluation& series, const std::string& name, std::size_t place) {
    return evaluate::find_parameter(series, name)->set_by.at(place);
}

// Constructed long axis: 3 000 mm, one run each way, by hand.
const std::vector<double> long_targets{6.4,    243.8,  511.9,  747.3,  1003.6, 1249.2, 1495.5,
                                       1752.1, 2008.7, 2246.9, 2503.3, 2741.8, 2995};
const std::vector<double> long_positive{0, 1.5, 2.5, 2, 3, 4.5, 5, 4, 6, 7.5, 7, 8, 9};
const std::vector<double> long_negative{-1, 0.5, 1, 0, 2.5, 3, 2, 2.5, 4, 5, 6.5, 5.5, 6};

}  // namespace

TEST_CASE("readings with exact standard deviations give the exact parameters, of the older editions too") {
    const auto series = evaluated_with_older(support::series("EXX", exact_targets, exact_positive, exact_negative));
    for (const auto& [name, expected] : exact_parameters) {
        INFO(name);
        CHECK(value(series, name) == expected);
    }
    CHECK(value(series, "B_mean") == Approx(3.8).epsilon(1e-15));
    CHECK(value(series, "vdi_U_mean") == Approx(3.8).epsilon(1e-15));
    // 3 s for 2 s in the same formulas, by hand: highest mean + 3 s is 3 + 6, lowest mean - 3 s is -1 - 6.
    CHECK(value(series, "s3_A_positive") == 12);
    CHECK(value(series, "s3_A") == 16);
    CHECK(value(series, "s3_R_positive") == 12);
    CHECK(value(series, "s3_R") == 12.5);
}

TEST_CASE("a constant of a million changes no range and no standard deviation") {
    const auto series =
        evaluated_with_older(support::series("EXX", exact_targets, raised(exact_positive, 1e6), raised(exact_negative, 1e6)));
    for (const auto& [name, expected] : exact_parameters) {
        INFO(name);
        CHECK(value(series, name) == expected);
    }
    CHECK(value(series, "B_mean") == Approx(3.8).epsilon(1e-15));
    CHECK(series.targets[1].one_way.positive.mean->in(micrometre) == 1000003);
    CHECK(series.targets[1].one_way.positive.s->in(micrometre) == 2);
    CHECK(series.targets[3].one_way.negative.s->in(micrometre) == 2);
}

TEST_CASE("each parameter names the targets that set it and the level reached there") {
    const auto series = support::evaluated(support::series("EXX", exact_targets, exact_positive, exact_negative));
    CHECK(setter(series, "A", 0).index == 1);
    CHECK(setter(series, "A", 0).approach == Approach::Positive);
    CHECK(setter(series, "A", 0).side == evaluate::Side::Max);
    CHECK(setter(series, "A", 0).level.in(micrometre) == 7);
    CHECK(setter(series, "A", 1).index == 3);
    CHECK(setter(series, "A", 1).approach == Approach::Negative);
    CHECK(setter(series, "A", 1).level.in(micrometre) == -5);
    CHECK(setter(series, "E", 1).index == 4);
    CHECK(setter(series, "M", 0).index == 2);
    CHECK_FALSE(setter(series, "M", 0).approach);
    CHECK(setter(series, "R", 0).index == 3);
    CHECK_FALSE(setter(series, "R", 0).approach);
    CHECK(setter(series, "B", 0).index == 3);
}

TEST_CASE("one run each way on a long axis gives means and reversals, and no repeatability") {
    const auto series = support::evaluated(support::series("EXX", long_targets, {long_positive}, {long_negative}));
    CHECK(value(series, "B") == 3);
    CHECK(value(series, "B_mean") == Approx(1.7307692307692308).epsilon(1e-15));
    CHECK(value(series, "E_positive") == 9);
    CHECK(value(series, "E_negative") == 7.5);
    CHECK(value(series, "E") == 10);
    CHECK(value(series, "M") == 8);
    CHECK(reason(series, "A") == "one run in each approach; at least two are needed");
    CHECK(reason(series, "R") == "one run in each approach; at least two are needed");
    CHECK(reason(series, "A_positive") == "one run in the positive approach; at least two are needed");
    CHECK(reason(series, "R_negative") == "one run in the negative approach; at least two are needed");
}

TEST_CASE("a negative reversal keeps its sign in B_i and B_mean, B is its size") {
    // Constructed: all reversals negative, one target without scatter, negative coordinates; by hand.
    const auto series = evaluated_with_older(support::series(
        "EXX", {-250.1, -125.4, -3.3}, {{-3, -3, -1.5}, {-3, -3, -1.5}, {-2, -3, -1}, {-1, -3, -0.5}, {-1, -3, -0.5}},
        {{0, 2, 5}, {0, 2, 5}, {1, 2, 6}, {2, 2, 7}, {2, 2, 7}}));
    const std::map<std::string, double> expected{{"A", 12},         {"A_positive", 4}, {"A_negative", 9}, {"E", 9},
                                                 {"E_positive", 2}, {"E_negative", 5}, {"R", 10},         {"R_positive", 4},
                                                 {"R_negative", 4}, {"B", 7},          {"B_mean", -5},    {"M", 3},
                                                 {"vdi_U", 7},      {"vdi_U_mean", 5}};
    for (const auto& [name, wanted] : expected) {
        INFO(name);
        CHECK(value(series, name) == wanted);
    }
    CHECK(series.targets[2].reversal->in(micrometre) == -7);
    CHECK(setter(series, "B", 0).level.in(micrometre) == -7);
}

TEST_CASE("readings in one direction give that direction's parameters and say why the others are missing") {
    const auto series = support::evaluated(support::series("EXX", exact_targets, exact_positive, {}));
    CHECK(value(series, "A_positive") == 9);
    CHECK(value(series, "E_positive") == 5);
    CHECK(value(series, "R_positive") == 8);
    for (const auto* name : {"A", "E", "R", "B", "B_mean", "M"})
        CHECK(reason(series, name) == "readings in the positive approach only");
    CHECK(reason(series, "E_negative") == "no readings in the negative approach");
    CHECK(reason(series, "A_negative") == "no readings in the negative approach");
}

TEST_CASE("a target without one direction counts in E, A and R but not in B and M") {
    auto negative = exact_negative;
    for (auto& run : negative) run[4] = support::missing;
    const auto evaluation =
        evaluate::evaluate(support::document(support::series("EXX", exact_targets, exact_positive, negative)));
    const auto& series = evaluation.series.front();
    CHECK(value(series, "E") == 7);  // highest mean 5, lowest now -2
    CHECK(value(series, "A") == 12);
    CHECK(value(series, "R") == 10);
    CHECK(value(series, "B_mean") == 3.5);
    CHECK(value(series, "M") == 4);
    REQUIRE(evaluation.warnings.size() == 1);
    CHECK(evaluation.warnings[0].text ==
          "EXX: reversal value and mean bi-directional deviation over 4 of 5 targets; 1 without readings in one approach, the first at "
          "404.625 mm");
}

TEST_CASE("R takes the repeatability of one direction at a target that has no other") {
    const auto series =
        support::evaluated(support::series("EXX", {0, 100}, {{0, 0}, {2, 20}}, {{0, support::missing}, {2, support::missing}}));
    CHECK(value(series, "R") == value(series, "R_positive"));
    CHECK(setter(series, "R", 0).approach == Approach::Positive);
}

TEST_CASE("one target with a single reading leaves A and R of that direction and of both not evaluated") {
    auto negative = exact_negative;
    for (std::size_t run = 1; run < 5; ++run) negative[run][2] = support::missing;
    const auto series = support::evaluated(support::series("EXX", exact_targets, exact_positive, negative));
    const auto wanted = "one reading only in the negative approach at 209.875 mm; every target position needs at least two";
    for (const auto* name : {"A", "R", "A_negative", "R_negative"}) CHECK(reason(series, name) == wanted);
    CHECK(value(series, "A_positive") == 9);
    CHECK(value(series, "R_positive") == 8);
    CHECK(value(series, "B") == 5);
}

TEST_CASE("directions that share no target have a range of means and no reversal") {
    const double none = support::missing;
    const auto series = support::evaluated(support::series("EXX", {0, 100}, {{1, none}}, {{none, 4}}));
    CHECK(value(series, "E") == 3);
    CHECK(reason(series, "B") == "no target position has readings in both approaches");
    CHECK(reason(series, "M") == "no target position has readings in both approaches");
}

TEST_CASE("a series whose readings are all missing evaluates to reasons") {
    const double none = support::missing;
    const auto series = support::evaluated(support::series("EXX", {0, 100}, {{none, none}}, {{none, none}}));
    for (const auto& parameter : series.parameters) CHECK(evaluate::value_of(parameter.value) == nullptr);
    CHECK(reason(series, "E") == "no readings");
    CHECK(series.missing.size() == 4);
}

TEST_CASE("older evaluations come only when the document asks") {
    const auto series = support::evaluated(support::series("EXX", exact_targets, exact_positive, exact_negative));
    CHECK(evaluate::find_parameter(series, "vdi_P") == nullptr);
    CHECK(evaluate::find_parameter(series, "s3_A") == nullptr);
    CHECK(series.parameters.size() == 12);
}

TEST_CASE("a missing reading that is also set aside counts as set aside") {
    auto data = support::series("EXX", {0, 100}, {{support::missing, 1}, {2, support::missing}}, {});
    data.runs[0].excluded.push_back({0, "beam interrupted"});
    const auto series = support::evaluated(data);
    REQUIRE(series.excluded.size() == 1);
    CHECK(series.excluded[0].reason == "beam interrupted");
    REQUIRE(series.missing.size() == 1);
    CHECK(series.missing[0].run == 1);
    CHECK(series.missing[0].target == 1);
}

TEST_CASE("a rotary axis is evaluated in its own units") {
    const auto series =
        support::evaluated(support::series("ECC", {0, 90, 180, 270}, {{0, 2, 4, 1}, {0, 4, 4, 1}}, {{1, 1, 2, 0}, {1, 1, 2, 0}},
                                           units::arcsecond, units::position_degree));
    CHECK(value(series, "E") == Approx(4).epsilon(1e-14));
    CHECK(value(series, "B") == Approx(2).epsilon(1e-14));
}
