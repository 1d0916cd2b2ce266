#include "evaluate/nist_data.hpp"
#include "evaluate/numbers/reference_lines.hpp"
#include "evaluate/numbers/trace/running_hull.hpp"
#include "evaluate/numbers/trace/running_sums.hpp"
#include "evaluate/numbers/trace/way_sums.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <numbers>
#include <random>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

/// The line of a trace from x0 to x1 and what lies over it.
template <class Function>
Line way_line(double x0, double x1, int samples, Function f) {
    WayLine sums;
    Passes passes(1e-9);
    for (int i = 0; i < samples; ++i) {
        const double x = x0 + (x1 - x0) * i / (samples - 1);
        if (Stretch stretch{}; passes.next(x, f(x), stretch)) sums.add(stretch);
    }
    return *sums.line();
}

}  // namespace

TEST_CASE("NIST's univariate sets, repeated a thousand times, keep their certified mean, and their standard deviation by its divisor") {
    struct Set {
        const char* name;
        std::vector<double> values;
        double mean, s, s_accuracy;
    };
    std::vector<double> almost_equal{10000000.2};  // NumAcc4
    for (int i = 0; i < 500; ++i) almost_equal.insert(almost_equal.end(), {10000000.1, 10000000.3});
    for (const Set& set : {Set{"Lew", nist::lew, -177.435000000000, 277.332168044316, 1e-14},
                           Set{"Lottery", nist::lottery, 518.958715596330, 291.699727470969, 1e-14},
                           Set{"NumAcc4", almost_equal, 10000000.2, 0.1, 1e-8}}) {
        INFO(set.name);
        constexpr double repeats = 1000;
        RunningStatistics running;
        for (int repeat = 0; repeat < repeats; ++repeat)
            for (const double value : set.values) running.add(value);
        const auto n = static_cast<double>(set.values.size());
        CHECK(running.count() == static_cast<std::size_t>(repeats * n));
        CHECK(running.mean() == Approx(set.mean).epsilon(3e-15));
        CHECK(running.standard_deviation() == Approx(set.s * std::sqrt((n - 1) * repeats / (n * repeats - 1))).epsilon(set.s_accuracy));
    }
}

TEST_CASE("a sum of ten million values is as good as one of ten") {
    CompensatedSum sum;
    sum.add(1e16);
    for (int i = 0; i < 10'000'000; ++i) sum.add(0.1);
    sum.add(-1e16);
    CHECK(sum.value() == Approx(1e6).epsilon(1e-9));
}

TEST_CASE("the line over the way of x squared and x cubed is the one that integration gives") {
    // Least squares over [0, 1] of x^2: x - 1/6; over [-1, 1] of x^3: 3x/5 (Legendre).
    const Line square = way_line(0, 1, 20'001, [](double x) { return x * x; });
    CHECK(square.slope == Approx(1).epsilon(1e-8));
    CHECK(square.at(0) == Approx(-1.0 / 6).epsilon(1e-7));
    const Line cube = way_line(-1, 1, 20'001, [](double x) { return x * x * x; });
    CHECK(cube.slope == Approx(0.6).epsilon(1e-7));
    CHECK(cube.at(0) == Approx(0).margin(1e-12));
}

TEST_CASE("samples of an axis at rest, and more samples where it is slow, do not move the line") {
    const auto f = [](double x) { return x * x / 1000; };  // over 1000 mm: x - 1000/6
    WayLine sums;
    Passes passes(0.01);
    std::mt19937 random(7);
    const auto add = [&](double x) {
        if (Stretch stretch{}; passes.next(x, f(x), stretch)) sums.add(stretch);
    };
    add(0);
    for (int i = 0; i < 50'000; ++i) add(0.001 * static_cast<double>(random() % 1000) / 1000);  // it trembles
    for (int i = 0; i < 90'000; ++i) add(0.001 + 99.999 * i / 90'000);
    for (int i = 0; i <= 2'000; ++i) add(100 + 900.0 * i / 2'000);
    CHECK(sums.line()->slope == Approx(1).epsilon(1e-6));
    CHECK(sums.line()->at(0) == Approx(-1000.0 / 6).epsilon(1e-6));
}

TEST_CASE("the hull holds what deviates most from any line, whatever the order, however many the samples") {
    CHECK(rc::check("random points", [] {
        const auto count = *rc::gen::inRange(1, 12'000);
        std::mt19937_64 random(static_cast<std::uint64_t>(count));
        const auto grid = static_cast<std::uint64_t>(*rc::gen::inRange(1, 2'000));  // few places: many points at one
        RunningHull hull;
        std::vector<TracePoint> all;
        for (int i = 0; i < count; ++i)
            all.push_back({static_cast<std::size_t>(i), static_cast<double>(random() % grid), static_cast<double>(random() % 997)});
        for (const TracePoint& point : all) hull.add(point);
        const std::vector<TracePoint> corners = hull.corners();
        for (const double slope : {0.0, 1.0, -0.37, 12.5, 1e4}) {
            const auto about = [&](const TracePoint& point) { return point.y - slope * point.x; };
            RC_ASSERT(about(*std::ranges::max_element(corners, {}, about)) == about(*std::ranges::max_element(all, {}, about)));
            RC_ASSERT(about(*std::ranges::min_element(corners, {}, about)) == about(*std::ranges::min_element(all, {}, about)));
        }
        for (const TracePoint& corner : corners) {
            const TracePoint& sample = all[corner.sample];
            RC_ASSERT((sample.x == corner.x && sample.y == corner.y));
        }
    }));
}

TEST_CASE("of equal samples the hull names the first") {
    RunningHull hull;
    for (std::size_t i = 0; i < 30'000; ++i) hull.add({i, static_cast<double>(i % 3), static_cast<double>(i % 3 == 1)});
    const auto corners = hull.corners();
    REQUIRE(corners.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) CHECK(corners[i].sample == i);
}

TEST_CASE("a sine of the stated period is found through a slope, and none where there is none") {
    const auto fit_of = [](double amplitude, double period, double way, int samples) {
        WayPeriod sums(period);
        Passes passes(1e-6);
        for (int i = 0; i < samples; ++i) {
            const double x = way * i / (samples - 1);
            const double y = 3 + 0.04 * x + amplitude * std::sin(2 * std::numbers::pi * x / period + 0.7);
            if (Stretch stretch{}; passes.next(x, y, stretch)) sums.add(stretch);
        }
        return sums.fit();
    };
    CHECK(fit_of(1.2, 12, 480, 48'001)->amplitude == Approx(1.2).epsilon(1e-6));
    CHECK(fit_of(1.2, 12, 480, 48'001)->share == Approx(1).epsilon(1e-9));
    CHECK(fit_of(1.2, 12, 475.3, 48'001)->amplitude == Approx(1.2).epsilon(1e-6));
    CHECK(fit_of(0, 12, 480, 48'001)->amplitude == Approx(0).margin(1e-9));
    CHECK(fit_of(0, 12, 480, 48'001)->share == 0);
    CHECK_FALSE(fit_of(1.2, 12, 35, 4'001).has_value());
}
