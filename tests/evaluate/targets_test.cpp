#include "evaluate/series/targets.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using evaluate::evaluate_targets;
using units::micrometre;

TEST_CASE("targets come out in rising position and remember their place in the file") {
    const auto targets = evaluate_targets(support::series("EXX", {200, 0, 100}, {{3, 1, 2}}, {}));
    CHECK(targets[0].index == 1);
    CHECK(targets[1].index == 2);
    CHECK(targets[2].index == 0);
    CHECK(targets[2].written == 200);
    CHECK(targets[2].one_way.positive.mean->in(micrometre) == 3);
}

TEST_CASE("a target's statistics leave out what is missing or set aside") {
    auto series = support::series("EXX", {0, 100}, {{1, 5}, {3, support::missing}, {90, 7}}, {{-1, 1}, {-3, 2}});
    series.runs[2].excluded.push_back({0, "beam interrupted"});
    const auto targets = evaluate_targets(series);
    CHECK(targets[0].one_way.positive.n == 2);
    CHECK(targets[0].one_way.positive.mean->in(micrometre) == 2);
    CHECK(targets[0].one_way.positive.s->in(micrometre) == Approx(std::sqrt(2.0)).epsilon(1e-15));
    CHECK(targets[0].one_way.negative.mean->in(micrometre) == -2);
    CHECK(targets[0].reversal->in(micrometre) == 4);
    CHECK(targets[1].one_way.positive.n == 2);
    CHECK(targets[1].mean->in(micrometre) == 3.75);
}

TEST_CASE("a reversal is positive when the positive approach reads higher") {
    CHECK(evaluate_targets(support::series("EXX", {0}, {{5}}, {{2}}))[0].reversal->in(micrometre) == 3);
    CHECK(evaluate_targets(support::series("EXX", {0}, {{2}}, {{5}}))[0].reversal->in(micrometre) == -3);
}

TEST_CASE("one reading has a mean and no standard deviation, no reading has neither") {
    const auto target = evaluate_targets(support::series("EXX", {0}, {{5}}, {}))[0];
    CHECK(target.one_way.positive.mean);
    CHECK_FALSE(target.one_way.positive.s);
    CHECK_FALSE(target.one_way.positive.R);
    CHECK_FALSE(target.one_way.negative.mean);
    CHECK_FALSE(target.mean);
    CHECK_FALSE(target.reversal);
}

TEST_CASE("equal readings have a standard deviation of exactly zero") {
    const auto target = evaluate_targets(support::series("EXX", {0}, {{0.1}, {0.1}, {0.1}}, {}))[0];
    CHECK(target.one_way.positive.mean->in(micrometre) == 0.1);
    CHECK(target.one_way.positive.s->in(micrometre) == 0);
}
