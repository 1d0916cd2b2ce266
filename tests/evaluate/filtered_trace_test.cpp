#include "evaluate/evaluation.hpp"
#include "evaluate/numbers/trace/gaussian.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <numbers>
#include <random>

/// What the low-pass makes of a record on the fly, against the closed form of a sine and the sum of ISO 16610-21 over samples.
using namespace wayfolio;
using namespace wayfolio::evaluate;
using Catch::Matchers::Contains;
using document::Approach;
using Values = std::vector<GaussianLowPass::Value>;

namespace {

struct Sample {
    double x, y;
};

Values filtered(const std::vector<Sample>& samples, double cutoff) {
    GaussianLowPass filter(cutoff);
    Passes passes(0.01);
    Values values;
    for (const Sample& sample : samples)
        if (Stretch stretch{}; passes.next(sample.x, sample.y, stretch))
            filter.add(stretch, [&](const GaussianLowPass::Value& value) { values.push_back(value); });
    return values;
}

std::vector<Sample> even(double from, double to, int count, const std::function<double(double)>& y) {
    std::vector<Sample> samples;
    for (int i = 0; i < count; ++i) {
        const double x = from + (to - from) * i / (count - 1);
        samples.push_back({x, y(x)});
    }
    return samples;
}

/// Weights of ISO 16610-21 over samples one step apart, all of them, that add up to 1.
double weighted(const std::vector<Sample>& samples, double at, double cutoff) {
    const long double alpha = std::sqrt(std::numbers::ln2_v<long double> / std::numbers::pi_v<long double>);
    long double sum = 0, weights = 0;
    for (const Sample& sample : samples) {
        const long double u = (sample.x - at) / (alpha * cutoff), weight = std::exp(-std::numbers::pi_v<long double> * u * u);
        sum += weight * sample.y;
        weights += weight;
    }
    return static_cast<double>(sum / weights);
}

document::Series traced_series(const std::string& symbol, const std::vector<Sample>& samples, double cutoff) {
    document::Series series = support::series(symbol, {}, {}, {}, units::micrometre, units::position_millimetre);
    series.trace.emplace().cutoff = cutoff;
    for (const Sample& sample : samples)
        series.trace->samples.push_back({{sample.x, units::position_millimetre}, {sample.y, units::micrometre}});
    return series;
}

TraceEvaluation trace_of(const document::Series& series) {
    return evaluate::evaluate(support::document(series)).series.at(0).trace.value();
}

double um(const units::Deviation& deviation) { return deviation.in(units::micrometre); }

}  // namespace

TEST_CASE("half of a wave as long as the cut-off goes through the low-pass, of others what the Gaussian says, at any place") {
    constexpr double cutoff = 8;
    for (const double waves_a_cutoff : {0.1, 0.5, 1.0, 2.0, 3.0}) {
        const double transmitted = std::exp2(-waves_a_cutoff * waves_a_cutoff);
        const auto wave = [&](double x) { return std::sin(2 * std::numbers::pi * waves_a_cutoff * x / cutoff + 0.3); };
        const Values values = filtered(even(-31, 57, 40'000, wave), cutoff);
        REQUIRE(values.size() > 500);
        double apart = 0;
        for (const auto& value : values) apart = std::max(apart, std::abs(value.y - transmitted * wave(value.x)));
        CAPTURE(waves_a_cutoff);
        CHECK(apart < 4e-6);
    }
}

TEST_CASE("the low-pass is that of ISO 16610-21 over samples, there and back") {
    constexpr double cutoff = 2.5;
    std::mt19937 random(16610);
    const auto noise = [&] { return static_cast<double>(random()) / 4294967296.0 - 0.5; };
    const std::vector<Sample> there = even(0, 40, 32'001, [&](double x) { return 3 * std::sin(x / 3) + std::cos(4 * x) + noise(); });
    const std::vector<Sample> back = even(40, 0, 32'001, [&](double x) { return 2 * std::sin(x / 3) - std::cos(5 * x) + noise(); });
    std::vector<Sample> both = there;
    both.insert(both.end(), back.begin() + 1, back.end());
    std::size_t one_way = 0;
    for (const auto& value : filtered(both, cutoff)) {
        if (value.approach == Approach::Positive) ++one_way;
        // A sample is one of 50 in a part, and stands for a part's mean: its own noise goes through a little otherwise.
        REQUIRE(value.y == Approx(weighted(value.approach == Approach::Positive ? there : back, value.x, cutoff)).margin(1.5e-3));
    }
    CHECK(one_way == filtered(both, cutoff).size() / 2);
}

TEST_CASE("a straight line goes through the low-pass as it is, by uneven samples and an axis that rests") {
    std::mt19937 random(3);
    std::vector<Sample> samples;
    for (double x = 0; x < 100; x += 0.5 * static_cast<double>(random()) / 4294967296.0) {
        samples.push_back({x, 5 + 0.25 * x});
        if (samples.size() % 50 == 0)
            for (int i = 0; i < 100; ++i) samples.push_back({x, 77});  // makes no way
    }
    for (const auto& value : filtered(samples, 4)) REQUIRE(value.y == Approx(5 + 0.25 * value.x).epsilon(1e-12));
}

TEST_CASE("filtered values stand in the middle of each 64th of the cut-off, and the ends of a pass have none") {
    const Values values = filtered(even(0.01, 30.02, 3'002, [](double) { return 1.0; }), 6.4);
    CHECK(values.front().x == Approx(0.1 * 65.5));  // parts 1 to 129 are whole
    CHECK(values.front().x - 0.01 >= 6.4);
    CHECK(30.02 - values.back().x >= 6.4);
    CHECK(30.02 - values.back().x < 6.4 + 0.2);
    CHECK(values.front().begins_pass);
    CHECK_FALSE(values.at(1).begins_pass);
    CHECK(values.at(1).x - values.at(0).x == Approx(0.1));
    CHECK(filtered(even(0, 12.8, 2'000, [](double) { return 1.0; }), 6.4).empty());
}

TEST_CASE("a straightness trace with a cut-off has range, lines and windows of filtered values beside those of its samples") {
    // A bow of 12 um over 400 mm, and a wave of 2 um that the cut-off takes down to 2^-16 of itself.
    const auto bow = [](double x) { return 12 - 12 * (x / 200 - 1) * (x / 200 - 1); };
    const auto both = [&](double x) { return bow(x) + 2 * std::sin(2 * std::numbers::pi * x / 5); };
    document::Series series = traced_series("EYX", even(0, 400, 8'001, both), 20);
    series.tolerances.push_back({.parameter = "local", .source = "", .limit = units::Deviation(3, units::micrometre),
                                 .unit = units::micrometre, .length_mm = 100});
    const TraceEvaluation trace = trace_of(series);
    CHECK(trace.cutoff == 20);
    const auto* const low = value_of(trace.filtered.value());
    REQUIRE(low != nullptr);
    CHECK_FALSE(low->highest.sample);
    CHECK(um(low->highest.value) == Approx(12).margin(0.02));
    CHECK(um(trace.highest.value) > 13.9);
    const auto straightness = [](const auto& lines) { return um(value_of(*lines)->at(2).straightness); };  // minimum zone
    CHECK(straightness(trace.lines) > 15);
    // The parabola over the 360 mm that are left: a zone of half its rise, 12 (180/200)^2.
    CHECK(straightness(low->lines) == Approx(12 * 0.81).epsilon(0.02));
    REQUIRE(trace.local.size() == 2);
    CHECK(trace.local[0].window.in(units::millimetre) == 100);
    CHECK(um(*trace.local[0].limit) == 3);
    CHECK(um(value_of(trace.local[0].widest)->value) > 4);
    // Over 100 mm: 12 (50/200)^2.
    CHECK(um(value_of(low->local.at(0).widest)->value) == Approx(0.75).epsilon(0.01));
    CHECK_FALSE(trace.local[1].limit);
    CHECK(value_of(low->local.at(1).widest) != nullptr);
}

TEST_CASE("where the low-pass cannot be had it says why: ends, samples too far apart, no order") {
    const auto why = [](const document::Series& series) { return std::get<NotEvaluated>(trace_of(series).filtered.value()).reason; };
    const auto flat = [](double x) { return x / 100; };
    CHECK_THAT(why(traced_series("EYX", even(0, 100, 1'001, flat), 50)),
               Contains("no pass is longer than two cut-off lengths of 50 mm: the first and the last of each are left out"));
    CHECK_THAT(why(traced_series("EXX", even(0, 100, 101, flat), 3)),
               Contains("samples are up to 1 mm apart: a cut-off of 3 mm needs four"));
    CHECK_THAT(why(traced_series("EXX", even(0, 100, 101, flat), 0.001)), Contains("samples are up to 1 mm apart"));
    CHECK_THAT(why(traced_series("EXX", {{5, 1}}, 8)), Contains("the axis did not move"));
    const TraceEvaluation positioning = trace_of(traced_series("EXX", even(0, 100, 1'001, flat), 8));
    REQUIRE(value_of(*positioning.filtered) != nullptr);
    CHECK_FALSE(value_of(*positioning.filtered)->lines);
    CHECK(positioning.local.empty());
}
