#include "evaluate/uncertainty/monte_carlo_axis.hpp"
#include "evaluate/series/targets.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

/// A perfect axis: all means zero, all standard deviations 1 µm, five runs each way.
std::vector<TargetEvaluation> perfect_axis(std::size_t count) {
    std::vector<TargetEvaluation> targets;
    const Deviation zero(units::micrometre(0)), one(units::micrometre(1));
    for (std::size_t i = 0; i < count; ++i) {
        TargetEvaluation target{.index = i,
                                .position = Position(100.0 * static_cast<double>(i), units::position_millimetre),
                                .written = 100.0 * static_cast<double>(i),
                                .one_way = {{.n = 5, .mean = zero, .s = one}, {.n = 5, .mean = zero, .s = one}}};
        derive_target(target);
        targets.push_back(target);
    }
    return targets;
}

const Simulated& parameter_of(const std::vector<SimulatedParameter>& all, const std::string& name) {
    for (const auto& parameter : all)
        if (parameter.name == name) return parameter.values;
    throw std::runtime_error("not simulated: " + name);
}

}  // namespace

TEST_CASE("ranges of a perfect axis have the mean and spread of order statistics", "[slow]") {
    // Five runs each way, sigma 1: E, M, B by quadrature of the range of normal samples (d2, d3); A and R by two million trials
    // of raw readings elsewhere (standard error below 0.0007).
    struct Row {
        std::size_t targets;
        const char* name;
        double mean, sd;
    };
    const std::vector<Row> rows{
        {5, "E", 1.3763, .3565},  {5, "M", 0.7355, .2732},  {5, "B", 0.9929, .3518},  {5, "R", 6.1032, .912},
        {5, "A", 6.3773, .862},   {11, "E", 1.7081, .3220}, {11, "M", 1.0034, .2490}, {11, "B", 1.2153, .3204},
        {11, "R", 6.6793, .828},  {11, "A", 7.0527, .760},  {21, "E", 1.9501, .2976}, {21, "M", 1.1948, .2290},
        {21, "B", 1.3824, .2969}, {21, "R", 7.1086, .772},  {21, "A", 7.5536, .693},  {49, "E", 2.2364, .2712},
        {49, "M", 1.4175, .2067}, {49, "B", 1.5827, .2710}, {49, "R", 7.6283, .716},  {49, "A", 8.1539, .627}};
    const std::size_t trials = 100'000;
    for (const std::size_t targets : {5u, 11u, 21u, 49u}) {
        const auto simulated = simulate_axis(perfect_axis(targets), {}, {"A", "E", "R", "B", "M"}, trials, targets);
        for (const Row& row : rows) {
            if (row.targets != targets) continue;
            CAPTURE(row.targets, row.name);
            const auto& values = parameter_of(simulated, row.name);
            CHECK(std::abs(values.mean - row.mean) < 4 * row.sd / std::sqrt(static_cast<double>(trials)) + 0.0007);
            CHECK(values.standard == Approx(row.sd).epsilon(0.012));
        }
    }
}

TEST_CASE("a length-proportional part moves E by its size times the travel and leaves R alone") {
    // A ramp of 40 µm over 1 m without scatter: E = 40 + (a L + c) z + g z', so its spread is sqrt((0.5 x 1 + 0.2)^2 + 0.3^2).
    auto targets = perfect_axis(11);
    for (auto& target : targets) {
        target.one_way.positive.mean = target.one_way.negative.mean = Deviation(units::micrometre(0.04 * target.written));
        target.one_way.positive.s = target.one_way.negative.s = Deviation(units::micrometre(0));
        derive_target(target);
    }
    const auto simulated =
        simulate_axis(targets, {.per_metre = 0.5, .constant = 0.2, .setup = 0.3, .drift = 0}, {"E", "R"}, 100'000, 2);
    CHECK(parameter_of(simulated, "E").mean == Approx(40).epsilon(2e-4));
    CHECK(parameter_of(simulated, "E").standard == Approx(std::hypot(0.7, 0.3)).epsilon(0.01));
    CHECK(parameter_of(simulated, "R").standard == 0);
}

TEST_CASE("on a falling curve the certificate's constant part adds to its length part as on a rising one") {
    // U = constant + length part is a sum, whichever way the error runs: both ramps of 40 µm over 1 m have the spread 0.5 + 0.2.
    for (const double slope : {0.04, -0.04}) {
        auto targets = perfect_axis(11);
        for (auto& target : targets) {
            target.one_way.positive.mean = target.one_way.negative.mean = Deviation(units::micrometre(slope * target.written));
            target.one_way.positive.s = target.one_way.negative.s = Deviation(units::micrometre(0));
            derive_target(target);
        }
        const auto simulated =
            simulate_axis(targets, {.per_metre = 0.5, .constant = 0.2, .setup = 0, .drift = 0}, {"A", "E", "M"}, 20'000, 4);
        for (const char* name : {"A", "E", "M"}) {
            CAPTURE(slope, name);
            CHECK(parameter_of(simulated, name).standard == Approx(0.7).epsilon(0.02));
        }
    }
}

TEST_CASE("drift enters each mean by its size over the root of the number of runs") {
    auto targets = perfect_axis(2);
    targets[1].one_way.positive.mean = targets[1].one_way.negative.mean = Deviation(units::micrometre(100));
    for (auto& target : targets) {
        target.one_way.positive.s = target.one_way.negative.s = Deviation(units::micrometre(0));
        derive_target(target);
    }
    // M is the difference of two bidirectional means: variance 2 x d^2 / (2 n).
    const auto simulated = simulate_axis(targets, {.drift = 2}, {"M"}, 100'000, 3);
    CHECK(parameter_of(simulated, "M").standard == Approx(2 / std::sqrt(5.0)).epsilon(0.01));
}

TEST_CASE("the comparison shifts the interval by the bias of noise added twice") {
    const Simulated simulated{10.5, 1.0, {8.56, 12.46}};
    const auto um = [](double v) { return Deviation(units::micrometre(v)); };
    auto result = compare_with_first_order(simulated, um(10), um(1.0), um(1.95), {1000, 7});
    CHECK(result.bias == um(0.5));
    CHECK(result.low.in(units::micrometre) == Approx(8.06));
    CHECK(result.high.in(units::micrometre) == Approx(11.96));
    CHECK(result.tolerance.in(units::micrometre) == Approx(0.05));  // u = 1.0, two digits
    CHECK(result.agrees);
    result = compare_with_first_order(simulated, um(10), um(1.0), um(2.1), {1000, 7});
    CHECK_FALSE(result.agrees);
}

TEST_CASE("without standard deviations in both directions nothing is simulated") {
    auto targets = perfect_axis(3);
    targets[1].one_way.negative.s.reset();
    CHECK(simulate_axis(targets, {}, {"E"}, 1000, 1).empty());
}
