#include "evaluate/evaluation.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <functional>
#include <numbers>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using document::Approach;
using document::ReferenceLine;

namespace {

using Samples = std::vector<std::pair<double, double>>;

/// Samples at even steps from one place to another.
void go(Samples& samples, double from, double to, int count, const std::function<double(double)>& f) {
    for (int i = 0; i < count; ++i) {
        const double x = from + (to - from) * i / (count - 1);
        samples.emplace_back(x, f(x));
    }
}

document::Series trace_series(const std::string& symbol, const std::vector<double>& targets, const Samples& samples,
                              const units::DeviationUnit& unit = units::micrometre,
                              const units::PositionUnit& position_unit = units::position_millimetre) {
    document::Series series = support::series(symbol, targets, {}, {}, unit, position_unit);
    series.trace.emplace();
    for (const auto& [x, y] : samples) series.trace->samples.push_back({units::Position(x, position_unit), units::Deviation(y, unit)});
    return series;
}

TraceEvaluation traced(const document::Series& series) { return evaluate::evaluate(support::document(series)).series.at(0).trace.value(); }

template <class T>
std::string reason(const Evaluated<T>& evaluated) {
    const auto* const why = std::get_if<NotEvaluated>(&evaluated);
    return why == nullptr ? "evaluated" : why->reason;
}

double cube(double x) { return x * x * x; }

}  // namespace

TEST_CASE("a trace of x cubed has the straightness that analysis gives for each of the three lines") {
    Samples samples;
    go(samples, -100, 100, 40'001, [](double x) { return cube(x / 100); });
    const auto trace = traced(trace_series("EYX", {}, samples));
    CHECK(trace.samples == 40'001);
    CHECK(value_of(trace.passes)->positive == 1);
    CHECK(value_of(trace.passes)->negative == 0);
    const auto& lines = *value_of(trace.lines.value());
    REQUIRE(lines.size() == 3);
    const auto line = [&](ReferenceLine kind) { return *std::ranges::find(lines, kind, &TraceLine::kind); };
    // End point: x^3 - x, 4/(3 sqrt 3). Least squares: x^3 - 3x/5 (Legendre), 4/5. Minimum zone: x^3 - 3x/4 (Chebyshev), 1/2.
    CHECK(line(ReferenceLine::EndPoint).straightness.in(units::micrometre) == Approx(4 / (3 * std::sqrt(3.0))).epsilon(1e-8));
    CHECK(line(ReferenceLine::LeastSquares).straightness.in(units::micrometre) == Approx(0.8).epsilon(1e-6));
    CHECK(line(ReferenceLine::MinimumZone).straightness.in(units::micrometre) == Approx(0.5).epsilon(1e-7));
    CHECK(line(ReferenceLine::EndPoint).slope.in(units::micrometre_per_metre) == Approx(10).epsilon(1e-12));
    CHECK(line(ReferenceLine::LeastSquares).slope.in(units::micrometre_per_metre) == Approx(6).epsilon(1e-6));
    CHECK(line(ReferenceLine::MinimumZone).slope.in(units::micrometre_per_metre) == Approx(7.5).epsilon(1e-4));
    const auto& end_point = line(ReferenceLine::EndPoint);
    CHECK(end_point.highest.position.in(units::position_millimetre) == Approx(-100 / std::sqrt(3.0)).margin(0.005));
    CHECK(samples[end_point.highest.sample.value()].first == end_point.highest.position.in(units::position_millimetre));
    CHECK(trace.highest.sample == 40'000);
    CHECK(trace.lowest.sample == 0);
}

TEST_CASE("passes there and back give means, reversal and repeatability at the targets, each pass by the samples beside them") {
    Samples samples;
    // Offsets 0, 2, 4 of the passes there: mean 2, s 2. Back: 10, 11, 12: mean 11, s 1.
    for (int pass = 0; pass < 3; ++pass) {
        go(samples, 0, 100, 333, [&](double x) { return 0.01 * x + 2 * pass; });
        go(samples, 100, 0, 311, [&](double x) { return 0.01 * x + 10 + pass; });
    }
    const auto trace = traced(trace_series("EXX", {75, 25, 50, 400}, samples));
    CHECK(value_of(trace.passes)->positive == 3);
    CHECK(value_of(trace.passes)->negative == 3);
    REQUIRE(trace.targets.size() == 3);  // none passed 400
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& target = trace.targets[i];
        const double at = 25.0 * static_cast<double>(i + 1);
        CHECK(target.written == at);
        CHECK(target.one_way.positive.n == 3);
        CHECK(target.one_way.positive.mean->in(units::micrometre) == Approx(0.01 * at + 2));
        CHECK(target.one_way.positive.s->in(units::micrometre) == Approx(2));
        CHECK(target.one_way.negative.mean->in(units::micrometre) == Approx(0.01 * at + 11));
        CHECK(target.one_way.negative.s->in(units::micrometre) == Approx(1));
        CHECK(target.reversal->in(units::micrometre) == Approx(-9));
    }
    CHECK(value_of(trace.reversal)->value.in(units::micrometre) == Approx(-9));
    CHECK(value_of(trace.repeatability.positive)->value.in(units::micrometre) == Approx(8));
    CHECK(value_of(trace.repeatability.negative)->value.in(units::micrometre) == Approx(4));
    CHECK_FALSE(trace.lines.has_value());
}

TEST_CASE("a target where a pass begins was not approached by it: no reversal is made of one sample") {
    Samples samples;
    go(samples, 0, 100, 201, [](double) { return 1; });
    go(samples, 100, 0, 201, [](double) { return 3; });
    const auto trace = traced(trace_series("EXX", {0, 100}, samples));
    REQUIRE(trace.targets.size() == 2);
    CHECK(trace.targets[0].one_way.positive.n == 0);
    CHECK(trace.targets[0].one_way.negative.mean->in(units::micrometre) == 3);
    CHECK(trace.targets[1].one_way.positive.mean->in(units::micrometre) == 1);
    CHECK(trace.targets[1].one_way.negative.n == 0);
    CHECK(reason(trace.reversal) == "no target was passed in both directions");
    CHECK(reason(trace.repeatability.positive) == "no target was passed twice in positive direction");
}

TEST_CASE("a pass that turns mid-way counts where it went, and there alone") {
    Samples samples;
    go(samples, 0, 60, 601, [](double) { return 1; });
    go(samples, 60, 40, 201, [](double) { return 5; });
    go(samples, 40, 100, 601, [](double) { return 1; });
    const auto trace = traced(trace_series("EXX", {20, 50, 80}, samples));
    CHECK(value_of(trace.passes)->positive == 2);
    CHECK(value_of(trace.passes)->negative == 1);
    CHECK(trace.targets[0].one_way.positive.n == 1);
    CHECK(trace.targets[1].one_way.positive.n == 2);
    CHECK(trace.targets[1].one_way.negative.n == 1);
    CHECK(trace.targets[2].one_way.positive.n == 1);
    CHECK(value_of(trace.reversal)->position.in(units::position_millimetre) == 50);
}

TEST_CASE("an axis that runs from high to low is passed in negative direction, whatever the order of targets") {
    Samples samples;
    go(samples, 500, 0, 1'001, [](double x) { return x / 100; });
    auto series = trace_series("EXX", {400, 100}, samples);
    const auto trace = traced(series);
    CHECK(value_of(trace.passes)->negative == 1);
    CHECK(trace.targets[0].one_way.negative.mean->in(units::micrometre) == Approx(1));
    CHECK(reason(trace.reversal) == "no target was passed in both directions");
    series.trace->approach = Approach::Negative;
    CHECK(reason(traced(series).passes) == "evaluated");
    series.trace->approach = Approach::Positive;
    CHECK(reason(traced(series).passes) == "the trace is said to be positive, and 1 of its 1 passes go the other way");
    CHECK(traced(series).targets.empty());
}

TEST_CASE("samples out of order are no passes: nothing that needs them is evaluated, the range is") {
    Samples samples;
    go(samples, 0, 1'000, 1'000, [](double x) { return x / 1'000; });
    for (std::size_t i = 0; i < samples.size(); ++i) std::swap(samples[i], samples[(i * 7919) % samples.size()]);
    auto series = trace_series("EYX", {250, 500}, samples);
    series.trace->pitch = 10;
    const auto trace = traced(series);
    CHECK_THAT(reason(trace.passes), Catch::Matchers::Contains("a record on the fly has at least 10 samples a pass, in the order of time"));
    CHECK(reason(*trace.lines) == reason(trace.passes));
    CHECK(reason(*trace.periodic) == reason(trace.passes));
    CHECK(trace.targets.empty());
    CHECK(trace.highest.value.in(units::micrometre) == 1);
    CHECK(trace.lowest.value.in(units::micrometre) == 0);
}

TEST_CASE("one sample, and many at one place, did not move") {
    const auto one = traced(trace_series("EYX", {0}, {{0, 5}}));
    CHECK(reason(one.passes) == "one sample: the axis did not move");
    CHECK(reason(*one.lines) == "one sample: the axis did not move");
    CHECK(one.highest.value.in(units::micrometre) == 5);
    CHECK(one.highest.sample == 0);
    const auto resting = traced(trace_series("EYX", {0}, Samples(100, {0, 5})));
    CHECK(reason(resting.passes) == "the axis did not move by more than 0.01 mm");
    CHECK(resting.samples == 100);
}

TEST_CASE("samples twice at one place, and a tremble at rest, change neither passes nor targets; of equal extremes the first is named") {
    Samples samples;
    go(samples, 0, 10, 101, [](double x) { return x; });
    Samples doubled;
    for (const auto& sample : samples) {
        doubled.push_back(sample);
        doubled.push_back(sample);
        doubled.emplace_back(sample.first - 0.004, sample.second);
    }
    const auto trace = traced(trace_series("EXX", {5}, doubled));
    CHECK(value_of(trace.passes)->positive == 1);
    CHECK(value_of(trace.passes)->negative == 0);
    CHECK(trace.targets[0].one_way.positive.mean->in(units::micrometre) == Approx(5));
    CHECK(trace.highest.sample == 300);
}

TEST_CASE("a rotary axis is traced in degrees, and has no straight line") {
    Samples samples;
    go(samples, 0, 360, 3'601, [](double x) { return 2 * std::sin(2 * std::numbers::pi * x / 5); });
    auto series = trace_series("ECC", {90, 180}, samples, units::arcsecond, units::position_degree);
    series.trace->pitch = 5;
    const auto trace = traced(series);
    CHECK(trace.targets.size() == 2);
    CHECK(value_of(*trace.periodic)->amplitude.in(units::arcsecond) == Approx(2).epsilon(1e-3));
    CHECK(value_of(*trace.periodic)->share == Approx(1).epsilon(1e-6));
    const auto straight = traced(trace_series("EXC", {}, samples, units::micrometre, units::position_degree));
    CHECK(reason(*straight.lines) == "no reference straight line is defined for a rotary axis");
}

TEST_CASE("a pitch that the samples cannot show is not evaluated") {
    Samples samples;
    go(samples, 0, 100, 51, [](double x) { return std::sin(2 * std::numbers::pi * x / 4); });
    auto series = trace_series("EXX", {}, samples);
    series.trace->pitch = 4;
    CHECK(reason(*traced(series).periodic) == "samples are up to 2 mm apart: each period needs four at least");
    series.trace->pitch = 50;
    CHECK(reason(*traced(series).periodic) == "the way has fewer than three periods");
    CHECK(traced(series).pitch == 50);
}

TEST_CASE("units of positions and deviations change no result") {
    Samples mm, inch;
    go(mm, 0, 254, 2'001, [](double x) { return std::sin(x / 40); });
    for (const auto& [x, y] : mm) inch.emplace_back(x / 25.4, y / 0.0254);
    const auto one = traced(trace_series("EYX", {}, mm));
    const auto other = traced(trace_series("EYX", {}, inch, units::microinch, units::position_inch));
    const auto &lines = *value_of(*one.lines), &same = *value_of(*other.lines);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        CHECK(lines[i].straightness.in(units::micrometre) == Approx(same[i].straightness.in(units::micrometre)).epsilon(1e-9));
        CHECK(lines[i].slope.in(units::microradian) == Approx(same[i].slope.in(units::microradian)).epsilon(1e-9));
    }
}
