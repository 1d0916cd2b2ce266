#include "evaluate/evaluation.hpp"
#include "evaluate/uncertainty/scatter/extreme_noise.hpp"
#include "evaluate/uncertainty/conformity.hpp"
#include "support/scatter_jobs.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

double in_um(const Deviation& value) { return value.in(units::micrometre); }

const ScatterBias& bias_of(const SeriesEvaluation& series, const char* name) {
    return std::get<ScatterBias>(find_parameter(series, name)->scatter_bias.value());
}

/// Targets 100 mm apart with these means, every standard deviation 1 µm, five readings.
SeriesEvaluation with_means(const std::vector<double>& up, const std::vector<double>& down, const std::string& symbol = "EXX") {
    std::vector<TargetEvaluation> targets;
    for (std::size_t i = 0; i < up.size(); ++i) {
        targets.push_back(support::known_target(i, 100.0 * static_cast<double>(i)));
        targets.back().one_way = {support::known_results(5, up[i], 1), support::known_results(5, down[i], 1)};
    }
    auto series = support::known_series(symbol, std::move(targets));
    add_scatter_bias(series, 0);
    return series;
}

SeriesEvaluation perfect(std::size_t targets, const std::string& symbol = "EXX") {
    return with_means(std::vector<double>(targets, 0), std::vector<double>(targets, 0), symbol);
}

document::Document with_limit(document::Series series, double limit, document::DecisionRule rule) {
    series.tolerances.push_back({"E", "drawing", units::micrometre(limit), units::micrometre, {}});
    auto document = support::document(series);
    document::Contributor contributor;
    contributor.name = "set-up";
    contributor.applies_to = {"EXX"};
    contributor.value = 0.05;
    contributor.unit = "um";
    document.uncertainty.contributors.push_back(contributor);
    document.evaluation.decision_rule = rule;
    return document;
}

/// An axis without a shape.
document::Document flat() {
    return with_limit(support::series("EXX", {0, 500, 1000}, {{0.9, -1.1, 0.1}, {-0.8, 1.2, -0.2}, {0.2, 1.0, 0.4}},
                                      {{-0.9, 0.6, 0.3}, {0.7, -0.8, 0.2}, {-0.3, -0.9, -1.1}}),
                      5, document::DecisionRule::Simple);
}

/// Three places at 2 µm and three at -2 µm, any of which may set E.
document::Document waves(double limit, document::DecisionRule rule) {
    const support::Rows noise{{0.8, -0.6, -0.2, 0.7, -0.5, 0.1}, {-0.6, 0.9, 0.5, -0.8, 0.7, -0.6}, {-0.2, -0.3, -0.4, 0.2, -0.1, 0.6}};
    auto up = noise, down = noise;
    for (std::size_t run = 0; run < noise.size(); ++run)
        for (std::size_t i = 0; i < noise[run].size(); ++i) {
            const double level = i % 2 == 0 ? 2 : -2;
            up[run][i] += level;
            down[run][i] = level - noise[(run + 1) % noise.size()][i];
        }
    return with_limit(support::series("EXX", {0, 200, 400, 600, 800, 1000}, up, down), limit, rule);
}

}  // namespace

TEST_CASE("the mean range of normal samples is the d2 of the tables") {
    // Harter, Ann. Math. Stat. 31 (1960) 1122: five decimals.
    for (const auto& [n, d2] : std::vector<std::pair<std::size_t, double>>{
             {2, 1.12838}, {3, 1.69257}, {5, 2.32593}, {10, 3.07751}, {15, 3.47183}, {20, 3.73495}}) {
        const std::vector<Candidate> same(n, {0, {.variance = 1}});
        CAPTURE(n);
        CHECK(2 * MaximumNoise().of(same, 3).mean == Approx(d2).margin(1e-5));
    }
    // Variance and skewness of the larger of two: 1 - 1/pi, and the closed form of the third moment.
    const auto two = MaximumNoise().of(std::vector<Candidate>(2, {0, {.variance = 1}}), 3);
    CHECK(two.variance == Approx(1 - 1 / std::numbers::pi).margin(1e-5));
    const double mean = 1 / std::sqrt(std::numbers::pi), third = 2.5 * mean;
    CHECK(two.third == Approx(third - 3 * mean + 2 * mean * mean * mean).margin(1e-4));
}

TEST_CASE("the law of a maximum is the same to the last digit, whatever was asked before") {
    std::mt19937_64 random(5);
    std::normal_distribution<double> levels(0, 2);
    std::vector<std::vector<Candidate>> all;
    for (int i = 0; i < 40; ++i) {
        std::vector<Candidate>& some = all.emplace_back();
        const bool flat = i % 3 == 0;
        for (int j = 0; j < 300; ++j)
            some.push_back({flat ? 0 : levels(random),
                            {.variance = j % 2 == 0 ? 1 : 0.5 + 0.01 * (j % 7), .third = i % 2 == 0 ? 0.0 : 0.3}});
        const std::vector<Candidate> first(some.begin(), some.begin() + 100);
        if (flat) all.push_back(first);
    }
    MaximumNoise maximum;
    for (const auto& some : all) {
        const Cumulants alone = MaximumNoise().of(some, 3), after = maximum.of(some, 3);
        CHECK(after.mean == alone.mean);
        CHECK(after.variance == alone.variance);
        CHECK(after.third == alone.third);
    }
}

TEST_CASE("the law of s of a normal sample has the moments of the chi distribution") {
    // c4 of the tables of quality control: n = 2, 5, 10.
    CHECK(1 + relative_error_of_s(1).mean == Approx(0.7979).margin(5e-5));
    CHECK(1 + relative_error_of_s(4).mean == Approx(0.9400).margin(5e-5));
    CHECK(1 + relative_error_of_s(9).mean == Approx(0.9727).margin(5e-5));
    CHECK(relative_error_of_s(1).variance == Approx(1 - 2 / std::numbers::pi).margin(1e-12));
    // One degree of freedom: a half normal variable, whose third central moment is sqrt(2/pi) (4/pi - 1).
    CHECK(relative_error_of_s(1).third == Approx(std::sqrt(2 / std::numbers::pi) * (4 / std::numbers::pi - 1)).margin(1e-12));
}

TEST_CASE("on an axis without any error the bias is the whole value that scatter makes") {
    // Five runs each way, sigma 1: mean values of E, M, B by quadrature; of A and R by two million trials of raw readings elsewhere
    // (standard error below 0.0007). Beside them what is true: A = 4, R = 4, the others 0. Of R the values of one target hang together,
    // and are taken as independent: up to 10 % too much, never too little.
    struct Row {
        std::size_t targets;
        const char* name;
        double mean, truth, within;
    };
    for (const Row& row : std::vector<Row>{{5, "E", 1.3763, 0, 1e-4},   {11, "E", 1.7081, 0, 1e-4},   {49, "E", 2.2364, 0, 1e-4},
                                           {5, "M", 0.7355, 0, 1e-4},   {11, "M", 1.0034, 0, 1e-4},   {49, "M", 1.4175, 0, 1e-4},
                                           {5, "B", 0.9929, 0, 0.025},  {11, "B", 1.2153, 0, 0.025},  {49, "B", 1.5827, 0, 0.025},
                                           {5, "A", 6.3773, 4, 0.08},   {11, "A", 7.0527, 4, 0.08},   {49, "A", 8.1539, 4, 0.08},
                                           {5, "R", 6.1032, 4, 0.21},   {11, "R", 6.6793, 4, 0.21},   {49, "R", 7.6283, 4, 0.21}}) {
        CAPTURE(row.targets, row.name);
        const double bias = bias_of(perfect(row.targets), row.name).up_to();
        CHECK(bias == Approx(row.mean - row.truth).margin(row.within));
        if (row.name == std::string("R")) CHECK(bias > row.mean - row.truth);
    }
}

TEST_CASE("where the shape is clear, scatter adds next to nothing") {
    const auto clear = with_means({0, 30, 60, 1000}, {-5, 25, 55, 900});
    CHECK(bias_of(clear, "E").up_to() < 0.02);
    CHECK(bias_of(clear, "M").up_to() < 0.02);
    CHECK(bias_of(clear, "B").up_to() < 0.02);
    CHECK(bias_of(perfect(4), "E").up_to() > 1);
}

TEST_CASE("the bias moves with neither offset nor sign nor direction, and grows with the unit") {
    const std::vector<double> up{0.2, -0.4, 0.9, 1.4, -0.3}, down{-0.1, 0.5, 0.3, 1.1, -0.9};
    const auto changed = [](std::vector<double> values, double factor, double offset) {
        for (double& value : values) value = factor * value + offset;
        return values;
    };
    const auto plain = with_means(up, down), moved = with_means(changed(up, 1, 40), changed(down, 1, 40)),
               turned = with_means(changed(up, -1, 0), changed(down, -1, 0)), swapped = with_means(down, up),
               mirrored = with_means({up.rbegin(), up.rend()}, {down.rbegin(), down.rend()});
    for (const char* name : {"A", "E", "R", "B", "M"}) {
        CAPTURE(name);
        const double bias = bias_of(plain, name).up_to(), down_to = below(bias_of(plain, name), 0.3, 1.96),
                     up_to = above(bias_of(plain, name), 0.3, 1.96);
        CHECK(bias > 0.3);
        for (const auto* same : {&moved, &turned, &swapped, &mirrored}) {
            CHECK(bias_of(*same, name).up_to() == Approx(bias).epsilon(1e-9));
            CHECK(below(bias_of(*same, name), 0.3, 1.96) == Approx(down_to).epsilon(1e-9));
            CHECK(above(bias_of(*same, name), 0.3, 1.96) == Approx(up_to).epsilon(1e-9));
        }
    }
    auto larger = plain;
    for (auto& target : larger.targets)
        for (const auto approach : document::both_approaches) {
            auto& one_way = target.one_way[approach];
            one_way = support::known_results(5, 7 * in_um(*one_way.mean), 7 * in_um(*one_way.s));
        }
    larger = support::known_series("EXX", larger.targets);
    add_scatter_bias(larger, 0);
    for (const char* name : {"A", "E", "R", "B", "M"})
        CHECK(bias_of(larger, name).up_to() == Approx(7 * bias_of(plain, name).up_to()).epsilon(1e-9));
}

TEST_CASE("targets that tie for an extreme do not hang on their order") {
    const auto tied = [](bool first_is_read_less) {
        std::vector<TargetEvaluation> targets;
        for (std::size_t i = 0; i < 4; ++i) {
            targets.push_back(support::known_target(i, 100.0 * static_cast<double>(i)));
            const bool less = first_is_read_less ? i == 0 : i == 3;
            const double mean = i == 0 || i == 3 ? 8 : 0;
            targets.back().one_way = {support::known_results(less ? 2 : 5, mean, 1), support::known_results(5, mean, 1)};
        }
        auto series = support::known_series("EXX", std::move(targets));
        add_scatter_bias(series, 0);
        return series;
    };
    CHECK(above(bias_of(tied(true), "E"), 0, 1.96) == Approx(above(bias_of(tied(false), "E"), 0, 1.96)).epsilon(1e-12));
    CHECK(below(bias_of(tied(true), "E"), 0, 1.96) == Approx(below(bias_of(tied(false), "E"), 0, 1.96)).epsilon(1e-12));
}

TEST_CASE("a straightness has the noise of its line, and linear results have no bias") {
    const auto straight = perfect(11, "EYX");
    CHECK(bias_of(straight, "straightness").up_to() < bias_of(perfect(11), "E").up_to());  // the line takes two degrees away
    CHECK(bias_of(straight, "straightness").up_to() > 0.85 * bias_of(perfect(11), "E").up_to());
    CHECK_FALSE(find_parameter(straight, "slope")->scatter_bias);
    CHECK_FALSE(find_parameter(straight, "B_mean")->scatter_bias);
}

TEST_CASE("without scatter that is known there is a reason in the place of the bias") {
    const auto reason = [](const support::Rows& up, const support::Rows& down) {
        const auto series = support::series("EXX", {0, 100, 200}, up, down);
        auto evaluated = evaluate_positioning(support::document(series), series);
        add_scatter_bias(evaluated, 0);
        return std::get<NotEvaluated>(find_parameter(evaluated, "E")->scatter_bias.value()).reason;
    };
    CHECK_THAT(reason({{1, 2, 3}}, {{2, 3, 4}}), Catch::StartsWith("one run in each approach"));
    CHECK_THAT(reason({{1, 2, 3}, {1, 2, 3}}, {{2, 3, 4}, {2, 3, 4}}), Catch::StartsWith("all readings at every target are equal"));
}

TEST_CASE("one run the other way, or readings missing, leave a bias") {
    const double none = support::missing;
    const auto series = support::series("EXX", {0, 100, 200}, {{1, 2, none}, {1.5, 2.2, 3.1}, {none, 2.4, 3.3}}, {{2, none, 4}});
    auto evaluated = evaluate_positioning(support::document(series), series);
    add_scatter_bias(evaluated, 0);
    CHECK(bias_of(evaluated, "E").up_to() > 0);
    CHECK(bias_of(evaluated, "E").degrees_of_freedom == 4);
}

TEST_CASE("the interval reaches farther down than up, never below nothing, and holds value and U") {
    const Evaluation evaluation = evaluate::evaluate(flat());
    const auto& entry = *std::find_if(evaluation.uncertainty.begin(), evaluation.uncertainty.end(),
                                      [](const auto& one) { return one.parameter == "E"; });
    const double value = in_um(*value_of(find_parameter(evaluation.series[0], "E")->value));
    REQUIRE(entry.interval);
    CHECK(entry.interval->stated);
    CHECK(in_um(entry.interval->low) == 0);
    CHECK(in_um(entry.interval->below) > value);
    CHECK(in_um(entry.interval->high) >= value + in_um(entry.expanded));
    CHECK(in_um(entry.interval->below) > in_um(entry.interval->high) - value);
    CHECK(in_um(entry.interval->below_one_sided) < in_um(entry.interval->below));
}

TEST_CASE("an uncertainty that the document states gets the bias added below the value") {
    auto document = flat();
    document.uncertainty.stated.push_back({"s", "E", units::micrometre(0.4), units::micrometre, 2});
    const Evaluation evaluation = evaluate::evaluate(document);
    const auto& entry = evaluation.uncertainty.at(0);
    const auto& parameter = *find_parameter(evaluation.series[0], "E");
    REQUIRE(entry.parameter == "E");
    REQUIRE(entry.interval);
    CHECK(in_um(entry.interval->below) == Approx(0.4 + std::get<ScatterBias>(*parameter.scatter_bias).up_to()));
    CHECK(in_um(entry.interval->high) == Approx(in_um(*value_of(parameter.value)) + 0.4));
}

TEST_CASE("what scatter alone may have put over the limit is not outside") {
    const auto decided = [](double limit, document::DecisionRule rule) {
        return evaluate::evaluate(waves(limit, rule)).decisions.at(0);
    };
    using document::DecisionRule;
    const auto probe = decided(1, DecisionRule::GuardBandBothSides);
    const double value = in_um(*probe.value), U = in_um(*probe.expanded);
    REQUIRE(probe.guard_below);
    CHECK(in_um(*probe.guard_below) > U);
    // Just farther over its limit than U, which scatter explains; and beyond all that scatter explains.
    const double limit = value - 1.05 * U;
    REQUIRE(limit > 0);
    CHECK(decided(limit, DecisionRule::GuardBandBothSides).outcome == Outcome::Undecided);
    CHECK(decided(limit, DecisionRule::NonBinary).outcome == Outcome::ConditionalFail);
    CHECK(decided(limit, DecisionRule::Iso14253_1).outcome == Outcome::Undecided);
    CHECK(decided(limit, DecisionRule::Simple).outcome == Outcome::Fail);
    CHECK(decided(limit, DecisionRule::GuardBand).outcome == Outcome::Fail);
    CHECK_FALSE(decided(limit, DecisionRule::Simple).guard_below);
    CHECK(decided(value + 1.01 * U, DecisionRule::GuardBandBothSides).outcome == Outcome::Pass);  // acceptance: U, as agreed
    CHECK(judge(DecisionRule::GuardBandBothSides, 12.1, 10, 1, 2) == Outcome::Fail);
    CHECK(judge(DecisionRule::GuardBandBothSides, 11.9, 10, 1, 2) == Outcome::Undecided);
}
