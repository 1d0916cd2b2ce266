#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/numbers/trend.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace wayfolio::evaluate;
using Values = std::vector<double>;

TEST_CASE("a straight line through Anscombe's first set has his printed slope and errors") {
    // Anscombe, The American Statistician 27 (1973) 17: 3.00, 0.500, se 0.118, t 4.24; further digits recomputed.
    const Values x{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5}, y{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68};
    const auto trend = linear_trend(x, y).value();
    CHECK(trend.intercept == Approx(3.000090909).epsilon(1e-9));
    CHECK(trend.slope == Approx(0.5000909091).epsilon(1e-9));
    CHECK(trend.slope_standard == Approx(0.1179055006).epsilon(1e-9));
    CHECK(trend.s == Approx(1.236603323).epsilon(1e-9));
    CHECK(*trend.t == Approx(4.241455289).epsilon(1e-9));
    CHECK(*trend.p == Approx(0.002169628873).epsilon(1e-9));
}

TEST_CASE("NIST's Pontius data have the slope and scatter of their exact straight line") {
    // NIST StRD Pontius readings; the straight line through them by exact rational arithmetic (derived, not certified).
    const Values y{0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146,
                   1.20001, 1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844,
                   0.11052, 0.22018, 0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.98300, 1.09150,
                   1.20004, 1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829};
    Values x;
    for (int i = 0; i < 40; ++i) x.push_back(150000.0 * (i % 20 + 1));
    const auto trend = linear_trend(x, y).value();
    CHECK(trend.slope == Approx(7.221025814536341e-07).epsilon(1e-12));
    CHECK(trend.intercept == Approx(0.006149684210526316).epsilon(1e-11));
    CHECK(trend.s == Approx(0.0021712725960567505).epsilon(1e-11));
    CHECK(trend.slope_standard == Approx(3.969147804044248e-10).epsilon(1e-11));
}

TEST_CASE("a constructed drift of half a micrometre an hour is found exactly") {
    const Values x{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, y{3.0, 1.5, 2.0, 4.5, 4.0, 4.5, 6.0, 4.5, 5.0, 7.5};
    const auto trend = linear_trend(x, y).value();  // residuals orthogonal to 1 and x: sse 8, s 1, se 1/sqrt(82.5)
    CHECK(trend.slope == Approx(0.5).epsilon(1e-14));
    CHECK(trend.intercept == Approx(2).epsilon(1e-14));
    CHECK(trend.s == Approx(1).epsilon(1e-14));
    CHECK(*trend.t == Approx(4.54147553115).epsilon(1e-11));
    CHECK(*trend.p == Approx(0.00189550970561).epsilon(1e-9));
    const auto flat = linear_trend(x, Values{3, 1, 1, 3, 2, 2, 3, 1, 1, 3}).value();
    CHECK(flat.slope == Approx(0).margin(1e-15));
    CHECK(*flat.p == Approx(1));
}

TEST_CASE("values without scatter about a line have no test") {
    Values x, y;
    for (int i = 0; i < 10; ++i) {
        x.push_back(i);
        y.push_back(2 + i / 2.0);
    }
    const auto trend = linear_trend(x, y).value();
    CHECK(trend.slope == Approx(0.5));
    CHECK_FALSE(trend.t.has_value());
    CHECK_FALSE(trend.p.has_value());
    CHECK_FALSE(linear_trend(Values{1, 1, 1}, Values{1, 2, 3}).has_value());
    CHECK_FALSE(linear_trend(Values{1, 2}, Values{1, 2}).has_value());
}

TEST_CASE("two groups keep their own levels and share the slope") {
    // Two exact lines of slope 2 at levels 10 apart, disturbed by ±1 that is orthogonal to both: slope 2, sse 4, nu = 4 - 3.
    const Values x{0, 1, 0, 1}, y{1, 3, 11, 13};
    const std::vector<std::size_t> groups{0, 0, 1, 1};
    const auto trend = linear_trend(x, y, groups).value();
    CHECK(trend.slope == Approx(2));
    CHECK(trend.degrees_of_freedom == 1);
}

TEST_CASE("the rank test gives the printed results of its textbook examples") {
    // EPA QA/G-9S (2006) p. 109: S 22, variance 155.33, z 1.685.
    const auto epa = rank_trend(Values{10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15}).value();
    CHECK(epa.S == 22);
    CHECK(epa.variance == Approx(155.3333333).epsilon(1e-9));
    CHECK(epa.z == Approx(1.6849498).epsilon(1e-7));
    // Gilbert (1987) p. 212: z 3.1.
    const auto gilbert =
        rank_trend(Values{20, 20, 20, 20, 15, 20, 20, 30, 27, 26, 23, 35, 25, 28, 70, 26, 24, 34, 32, 23, 50, 30}).value();
    CHECK(gilbert.z == Approx(3.1411481).epsilon(1e-7));
    CHECK(gilbert.p == Approx(0.0016828689).epsilon(1e-7));
    // EPA 530/R-09-007 example 17-7: z 2.146625 (ten values: here the p is exact).
    const auto sodium = rank_trend(Values{56, 53, 51, 55, 52, 60, 62, 59, 61, 63}).value();
    CHECK(sodium.z == Approx(2.1466253).epsilon(1e-7));
    CHECK(sodium.exact);
    CHECK(sodium.p == Approx(2 * 0.0143054).epsilon(1e-4));
    // Wisconsin Administrative Code NR, table A: S -5.
    CHECK(rank_trend(Values{100, 50, 85, 75, 50}).value().S == -5);
    // EPA five values: S 6, one-sided p 0.117.
    CHECK(rank_trend(Values{5, 6, 11, 8, 10}).value().p == Approx(2 * 0.11666667).epsilon(1e-7));
}

TEST_CASE("fewer than four values have no rank test") { CHECK_FALSE(rank_trend(Values{1, 2, 3}).has_value()); }
