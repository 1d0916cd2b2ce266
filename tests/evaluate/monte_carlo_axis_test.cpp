#include "evaluate/uncertainty/monte_carlo_axis.hpp"
#include "evaluate/series/targets.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

double micrometres(const Deviation& value) { return value.in(units::micrometre); }

/// A perfect axis: all means zero, all standard deviations alike, `n` runs each way.
std::vector<TargetEvaluation> perfect_axis(std::size_t count, std::size_t n = 5, double s = 1) {
    std::vector<TargetEvaluation> targets;
    const Deviation zero(units::micrometre(0)), spread(units::micrometre(s));
    for (std::size_t i = 0; i < count; ++i) {
        TargetEvaluation target{.index = i,
                                .position = Position(100.0 * static_cast<double>(i), units::position_millimetre),
                                .written = 100.0 * static_cast<double>(i),
                                .one_way = {{.n = n, .mean = zero, .s = spread}, {.n = n, .mean = zero, .s = spread}}};
        derive_target(target);
        targets.push_back(target);
    }
    return targets;
}

/// A ramp of 40 µm without scatter: what is systematic stands alone.
std::vector<TargetEvaluation> bare_ramp(double um_per_mm = 0.04) {
    auto targets = perfect_axis(11, 5, 0);
    for (auto& target : targets) {
        target.one_way.positive.mean = target.one_way.negative.mean = Deviation(units::micrometre(um_per_mm * target.written));
        derive_target(target);
    }
    return targets;
}

Simulated of_parameter(const std::vector<Simulated>& all, std::string_view name) {
    return all.at(static_cast<std::size_t>(std::ranges::find(simulated_parameters, name) - simulated_parameters.begin()));
}

Simulated simulated(Targets targets, const AxisModel& model, std::string_view name, std::size_t trials = 100'000,
                    double coverage = 0.95) {
    const auto all = simulate_axis(targets, model, trials, 2);
    return of_parameter(summaries(std::get<RepeatedTrials>(all), coverage, std::vector<Band>(simulated_parameters.size())), name);
}

Component drawn_as(const char* distribution, double standard, std::optional<double> nu = {}) {
    return {.name = "known", .distribution = distribution, .standard = standard, .degrees_of_freedom = nu};
}

Component together(std::vector<Component> parts) { return {.name = "together", .law = Law::Sum, .parts = std::move(parts)}; }

struct Row {
    std::size_t targets;
    const char* name;
    double mean, sd;
};

/// @param runs of which the means have the spread 1 / sqrt 5
void check_rows(const std::vector<Row>& rows, std::size_t runs, double mean_known, double sd_known) {
    const std::size_t trials = 20'000;
    std::map<std::size_t, std::vector<Simulated>> by_targets;
    for (const Row& row : rows) {
        CAPTURE(row.targets, row.name);
        auto& all = by_targets[row.targets];
        const auto axis = perfect_axis(row.targets, runs, std::sqrt(static_cast<double>(runs) / 5));
        if (all.empty())
            all = summaries(std::get<RepeatedTrials>(simulate_axis(axis, {}, trials, row.targets)), 0.95,
                            std::vector<Band>(simulated_parameters.size()));
        const Simulated values = of_parameter(all, row.name);
        CHECK(std::abs(values.mean - row.mean) < 4 * row.sd / std::sqrt(static_cast<double>(trials)) + mean_known);
        CHECK(values.standard == Approx(row.sd).epsilon(sd_known));
    }
}

}  // namespace

TEST_CASE("ranges of a perfect axis have the mean and spread of order statistics", "[slow]") {
    // By quadrature of the range of normal samples (d2, d3). So many runs make the scaled t of a mean normal.
    check_rows({{5, "E", 1.3763, .3565}, {5, "M", 0.7355, .2732}, {5, "B", 0.9929, .3518},
                {11, "E", 1.7081, .3220}, {11, "M", 1.0034, .2490}, {11, "B", 1.2153, .3204},
                {21, "E", 1.9501, .2976}, {21, "M", 1.1948, .2290}, {21, "B", 1.3824, .2969}},
               2001, 0.0015, 0.025);
}

TEST_CASE("few runs give means the scaled t and standard deviations their sampling law", "[slow]") {
    // Five runs each way: 400 000 trials in another language with another generator (standard error of a mean below 0.0018).
    check_rows({{5, "A", 6.7131, 1.0381}, {5, "E", 1.9413, .8591}, {5, "R", 6.2640, .9852},
                {5, "B", 1.4077, .7607}, {5, "M", 1.0030, .4898},
                {11, "A", 7.5533, 1.0561}, {11, "E", 2.6285, 1.0167}, {11, "R", 6.8751, .9457},
                {11, "B", 1.8404, .8720}, {11, "M", 1.4348, .5490}},
               5, 0.007, 0.05);
}

TEST_CASE("every declared distribution is drawn as it is") {
    const auto of = [](const char* distribution, double standard, std::optional<double> nu = {}, double coverage = 0.95) {
        return simulated(bare_ramp(), {.systematic = {drawn_as(distribution, standard, nu)}}, "E", 200'000, coverage);
    };
    const double k2 = std::erf(std::sqrt(2.0));
    // A half width of 5: 0.9545 of it to either side, where a normal law of the same standard uncertainty has 5.77.
    const auto rectangular = of("rectangular", 5 / std::sqrt(3.0), {}, k2);
    CHECK(rectangular.standard == Approx(2.887).margin(0.01));
    CHECK(rectangular.symmetric.high - 40 == Approx(4.772).margin(0.015));
    CHECK(40 - rectangular.symmetric.low == Approx(4.772).margin(0.015));
    CHECK(of("normal", 5 / std::sqrt(3.0), {}, k2).symmetric.high - 40 == Approx(5.774).margin(0.06));
    // Triangular: 1 - sqrt(1 - p) of its half width; arcsine: sin(pi p / 2).
    CHECK(of("triangular", 5 / std::sqrt(6.0)).symmetric.high - 40 == Approx(5 * (1 - std::sqrt(0.05))).margin(0.03));
    CHECK(of("u_shaped", 5 / std::sqrt(2.0)).symmetric.high - 40 == Approx(5 * std::sin(1.570796 * 0.95)).margin(0.003));
    CHECK(of("normal", 1, 4).symmetric.high - 40 == Approx(2.776).margin(0.04));  // GUM table G.2: 2.78
    CHECK(of("normal", 1, 10).symmetric.high - 40 == Approx(2.228).margin(0.025));
    CHECK(of("rectangular", 1, 4).symmetric.high - 40 == Approx(std::sqrt(3.0) * 0.95).margin(0.01));  // exact limits
}

TEST_CASE("the additive examples of JCGM 101 hold for contributors of a budget") {
    // 9.2.3: four rectangular inputs of u = 1, 95 % within 3.88 (exact 3.879); 9.2.4: one of u = 10 among three of u = 1, 17.0.
    const Component one = drawn_as("rectangular", 1), ten = drawn_as("rectangular", 10);
    const auto even = simulated(bare_ramp(), {.systematic = {one, one, one, one}}, "E", 400'000);
    CHECK(even.standard == Approx(2).margin(0.01));
    CHECK(even.symmetric.high - 40 == Approx(3.879).margin(0.02));
    const auto uneven = simulated(bare_ramp(), {.systematic = {one, one, one, ten}}, "E", 400'000);
    CHECK(uneven.symmetric.high - 40 == Approx(17.016).margin(0.04));
}

TEST_CASE("correlated inputs add before they spread, whatever their units and laws") {
    // 0.5 µm/m over 1 m and 0.2 µm, and independently 0.3 µm: as in the budget.
    Component length = drawn_as("normal", 0.5), constant = drawn_as("normal", 0.2);
    length.per_metre = true;
    for (const double slope : {0.04, -0.04}) {
        const AxisModel model{.systematic = {together({length, constant}), drawn_as("normal", 0.3)}};
        for (const char* name : {"A", "E", "M"}) {
            CAPTURE(slope, name);
            const auto values = simulated(bare_ramp(slope), model, name);
            CHECK(values.mean == Approx(40).epsilon(2e-4));
            CHECK(values.standard == Approx(std::hypot(0.7, 0.3)).epsilon(0.01));
        }
        CHECK(simulated(bare_ramp(slope), model, "R").standard == 0);
    }
    // Of two laws, each at the same probability of its own: the end of the sum is the sum of the ends, here at 97.5 %.
    const auto mixed = simulated(bare_ramp(), {.systematic = {together({drawn_as("normal", 1), drawn_as("rectangular", 1)})}}, "E");
    CHECK(mixed.symmetric.high - 40 == Approx(1.960 + std::sqrt(3.0) * 0.95).margin(0.04));
    const Component three = together({drawn_as("triangular", 1), drawn_as("u_shaped", 1), drawn_as("normal", 1, 5)});
    const auto all = simulated(bare_ramp(), {.systematic = {three}}, "E", 20'000);
    CHECK(all.symmetric.high - 40 ==
          Approx(std::sqrt(6.0) * (1 - std::sqrt(0.05)) + std::sqrt(2.0) * std::sin(1.570796 * 0.95) + 2.571).margin(0.12));
}

TEST_CASE("drift enters each mean by its size over the root of the number of runs") {
    auto targets = perfect_axis(2, 5, 0);
    targets[1].one_way.positive.mean = targets[1].one_way.negative.mean = Deviation(units::micrometre(100));
    // M is the difference of two bidirectional means: variance 2 x d^2 / (2 n).
    CHECK(simulated(targets, {.drift = 2}, "M").standard == Approx(2 / std::sqrt(5.0)).epsilon(0.01));
}

TEST_CASE("a target without one direction takes part in A and E alone") {
    auto targets = perfect_axis(3, 5, 0);
    const auto at = [](double value) { return Deviation(units::micrometre(value)); };
    targets[1].one_way.positive.mean = at(50);
    targets[1].one_way.negative = {};
    targets[2].one_way.positive.mean = targets[2].one_way.negative.mean = at(10);
    CHECK(simulated(targets, {}, "E", 10).mean == Approx(50));
    CHECK(simulated(targets, {}, "A", 10).mean == Approx(50));
    CHECK(simulated(targets, {}, "M", 10).mean == Approx(10));
}

TEST_CASE("the comparison moves the interval back by the shift of noise added twice") {
    const Deviation ten(units::micrometre(10)), one(units::micrometre(1));
    std::vector<double> values;  // a normal law of u = 1 about 10.5, by its quantiles
    for (int i = 0; i < 200'000; ++i) values.push_back(10.5 + standardised_quantile({}, (i + 0.5) / 200'000));
    const auto compared = [&](double expanded, std::size_t every) {
        std::vector<double> some;
        for (std::size_t i = every / 2; i < values.size(); i += every) some.push_back(values[i]);
        const Deviation U(units::micrometre(expanded));
        const std::size_t count = some.size();
        const auto summary = summaries(RepeatedTrials(std::move(some)), 0.95, {band_of(ten, U)}).front();
        return compare_with_first_order(summary, ten, one, U, {count, 7});
    };
    const auto close = compared(1.95, 1);
    CHECK(micrometres(close.shift) == Approx(0.5));
    CHECK(micrometres(close.low) == Approx(10 - 1.96).margin(1e-3));
    CHECK(micrometres(close.high) == Approx(10 + 1.96).margin(1e-3));
    CHECK(micrometres(close.tolerance) == Approx(0.05));  // u = 1.0, two digits
    CHECK(close.agrees);
    CHECK_FALSE(close.printed);
    CHECK_FALSE(close.resolution);
    const auto wider = compared(2.1, 1), narrower = compared(1.8, 1);
    CHECK_FALSE(wider.agrees);
    CHECK(wider.printed == MonteCarloResult::Printed::Wider);
    CHECK(wider.covered == Approx(0.9643).margin(2e-4));
    CHECK(narrower.printed == MonteCarloResult::Printed::Narrower);
    CHECK(narrower.covered == Approx(0.9281).margin(2e-4));
    // So few trials cannot tell: their own standard error is given, and three of them are allowed.
    const auto coarse = compared(2.1, 100);
    REQUIRE(coarse.resolution);
    CHECK(micrometres(*coarse.resolution) == Approx(2.7 / std::sqrt(2000.0)));
    CHECK(coarse.agrees);
}

TEST_CASE("what cannot be simulated has a reason") {
    const auto reason = [](Targets targets, const AxisModel& model) {
        return std::get<NotEvaluated>(simulate_axis(targets, model, 1000, 1)).reason;
    };
    CHECK_THAT(reason(perfect_axis(3, 3), {}), Catch::StartsWith("fewer than four readings at a target"));
    auto single = perfect_axis(3);
    single[1].one_way.negative.s.reset();
    single[1].one_way.negative.n = 1;
    CHECK_THAT(reason(single, {}), Catch::StartsWith("fewer than four readings at a target"));
    CHECK(reason(perfect_axis(1), {}) == "fewer than two targets");
    CHECK_THAT(reason(perfect_axis(3), {.systematic = {drawn_as("normal", 1, 2)}}), Catch::StartsWith("an input quantity has two degrees"));
}
