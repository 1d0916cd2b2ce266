#include "evaluate/numbers/reference_lines.hpp"
#include "evaluate/numbers/local_straightness.hpp"

#include <rapidcheck.h>
#include <boost/math/statistics/linear_regression.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace wayfolio::evaluate;
using wayfolio::document::ReferenceLine;

namespace {

using Numbers = std::vector<double>;

double straightness(ReferenceLine kind, const Numbers& x, const Numbers& y) {
    return extremes_about(reference_line(kind, x, y), x, y).range();
}

struct Expected {
    double slope, intercept, straightness;
};

void check_line(ReferenceLine kind, const Numbers& x, const Numbers& y, const Expected& expected) {
    const Line line = reference_line(kind, x, y);
    CHECK(line.slope == Approx(expected.slope).margin(5e-13));
    CHECK(line.at(0) == Approx(expected.intercept).margin(2e-9));
    CHECK(straightness(kind, x, y) == Approx(expected.straightness).margin(1.1e-6));
}

Numbers even(std::size_t count, double step) {
    Numbers x(count);
    for (std::size_t i = 0; i < count; ++i) x[i] = static_cast<double>(i) * step;
    return x;
}

/// Width of the zone of one slope.
double width(const Numbers& x, const Numbers& y, double slope) { return extremes_about({slope, 0, 0}, x, y).range(); }

/// The least width by golden section: a second, unrelated way to the minimum zone (the width is convex in the slope).
double least_width(const Numbers& x, const Numbers& y) {
    double low = -1e3, high = 1e3;
    for (int i = 0; i < 300; ++i) {
        const double a = low + (high - low) * 0.382, b = low + (high - low) * 0.618;
        if (width(x, y, a) < width(x, y, b))
            high = b;
        else
            low = a;
    }
    return width(x, y, (low + high) / 2);
}

struct Profile {
    Numbers x, y;
};

/// A profile of 3 to 40 points in whole hundredths, at rising places.
rc::Gen<Profile> profiles() {
    return rc::gen::map(rc::gen::suchThat(rc::gen::container<std::vector<std::pair<int, int>>>(
                                              rc::gen::pair(rc::gen::inRange(1, 500), rc::gen::inRange(-2000, 2000))),
                                          [](const auto& raw) { return raw.size() >= 3 && raw.size() <= 40; }),
                        [](const std::vector<std::pair<int, int>>& raw) {
                            Profile profile;
                            double at = -400;
                            for (const auto& [step, height] : raw) {
                                profile.x.push_back(at);
                                profile.y.push_back(height / 100.0);
                                at += step;
                            }
                            return profile;
                        });
}

}  // namespace

TEST_CASE("five heights have the lines of plain arithmetic") {
    const Numbers x{0, 1, 2, 3, 4}, y{2, -1, 0, -2, 3};
    check_line(ReferenceLine::EndPoint, x, y, {0.25, 2, 4.75});
    check_line(ReferenceLine::LeastSquares, x, y, {0.1, 0.2, 4.9});
    check_line(ReferenceLine::MinimumZone, x, y, {0.25, -0.375, 4.75});
}

TEST_CASE("seven autocollimator heights give the textbook's 3 um about the end points") {
    // Textbook arithmetic: readings 2'8" .. 2'15" on a base of 100 mm; printed: largest +2, lowest -1, error 3 um.
    const Numbers x = even(7, 100), y{0, 0, 1.5, 5, 4, 4, 6};
    check_line(ReferenceLine::EndPoint, x, y, {0.01, 0, 3});
    CHECK(straightness(ReferenceLine::LeastSquares, x, y) == Approx(3.035714).margin(5e-7));
    check_line(ReferenceLine::MinimumZone, x, y, {0.01, 0.5, 3});
    const Extremes extremes = extremes_about(end_point_line(x, y), x, y);
    CHECK(extremes.highest == Approx(2));
    CHECK(extremes.lowest == Approx(-1));
}

TEST_CASE("a bow, a kick and a triangle have their closed forms") {
    const Numbers bow{0, 3.6, 6.4, 8.4, 9.6, 10, 9.6, 8.4, 6.4, 3.6, 0};
    for (const auto kind : {ReferenceLine::EndPoint, ReferenceLine::LeastSquares, ReferenceLine::MinimumZone})
        CHECK(straightness(kind, even(11, 100), bow) == Approx(10).epsilon(1e-14));
    Numbers kick(11, 0.0);
    kick.back() = 6;
    check_line(ReferenceLine::EndPoint, even(11, 100), kick, {0.006, 0, 5.4});
    check_line(ReferenceLine::LeastSquares, even(11, 100), kick, {0.03 / 11, -9.0 / 11, 63.0 / 11});
    check_line(ReferenceLine::MinimumZone, even(11, 100), kick, {0.006, -2.7, 5.4});
    check_line(ReferenceLine::MinimumZone, {0, 100, 150}, {0, 0, 3}, {0.02, -1, 2});
}

TEST_CASE("two points lie on every line") {
    for (const auto kind : {ReferenceLine::EndPoint, ReferenceLine::LeastSquares, ReferenceLine::MinimumZone})
        check_line(kind, {0, 10}, {1, 3}, {0.2, 1, 0});
}

TEST_CASE("least squares agrees with Boost.Math and with NIST's certified line") {
    // NIST/ITL StRD, Linear Regression, Norris: certified intercept -0.262323073774029, slope 1.00211681802045.
    const Numbers x{0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                    0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                    0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
    const Numbers y{0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                    0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                    0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
    const Line line = least_squares_line(x, y);
    CHECK(line.slope == Approx(1.00211681802045).epsilon(1e-14));
    CHECK(line.at(0) == Approx(-0.262323073774029).epsilon(1e-12));
    const auto [intercept, slope] = boost::math::statistics::simple_ordinary_least_squares(x, y);
    CHECK(line.slope == Approx(slope).epsilon(1e-13));
    CHECK(line.at(0) == Approx(intercept).epsilon(1e-11));
}

TEST_CASE("the minimum zone agrees with a search, and is at most the other lines' zones") {
    CHECK(rc::check([] {
        const auto [x, y] = *profiles();
        const double zone = straightness(ReferenceLine::MinimumZone, x, y);
        RC_ASSERT(std::abs(zone - least_width(x, y)) <= 1e-9);
        RC_ASSERT(zone <= straightness(ReferenceLine::LeastSquares, x, y) + 1e-12);
        RC_ASSERT(zone <= straightness(ReferenceLine::EndPoint, x, y) + 1e-12);
    }));
}

TEST_CASE("adding a straight line leaves straightness alone, and mirrored data mirror") {
    CHECK(rc::check([] {
        const auto [x, y] = *profiles();
        const double slope = *rc::gen::inRange(-500, 500) / 100.0, offset = *rc::gen::inRange(-9000, 9000);
        Numbers tilted(x.size()), turned(x.size()), back(x.size()), backwards(x.size());
        for (std::size_t i = 0; i < x.size(); ++i) {
            tilted[i] = y[i] + offset + slope * x[i];
            turned[i] = -y[i];
            back[i] = -x[x.size() - 1 - i];
            backwards[i] = y[x.size() - 1 - i];
        }
        for (const auto kind : {ReferenceLine::EndPoint, ReferenceLine::LeastSquares, ReferenceLine::MinimumZone}) {
            const double value = straightness(kind, x, y);
            RC_ASSERT(std::abs(straightness(kind, x, tilted) - value) < 1e-9);
            RC_ASSERT(std::abs(straightness(kind, x, turned) - value) < 1e-10);
            RC_ASSERT(std::abs(straightness(kind, back, backwards) - value) < 1e-10);
            RC_ASSERT(std::abs(reference_line(kind, x, turned).slope + reference_line(kind, x, y).slope) < 1e-10);
        }
    }));
}

TEST_CASE("the largest window is found exactly where a closed form is known") {
    // A roof, 0 at both ends and 10 um in the middle of 1 000 mm: a window of length L centred on the ridge has a chord L/2 from
    // it.
    const Numbers x{0, 500, 1000}, y{0, 10, 0};
    for (const WindowLine line : {WindowLine::EndPoint, WindowLine::MinimumZone}) {
        const auto window = largest_window(x, y, 300, line);
        REQUIRE(window);
        CHECK(window->value == Approx(3).epsilon(1e-12));
        CHECK(window->from == Approx(350));
        CHECK(window->to == Approx(650));
    }
    CHECK_FALSE(largest_window(x, y, 1000.1, WindowLine::EndPoint));
    CHECK(largest_window(x, y, 1000, WindowLine::EndPoint)->value == Approx(10));
}

TEST_CASE("a kink between targets is never lost, whatever the window's length") {
    // Slopes 0.01 and -0.02 um/mm meet at 333.3 mm: the chord of a centred window is |change of slope| L / 4 from the kink.
    const Numbers x{0, 333.3, 1000}, y{0, 3.333, 3.333 - 0.02 * 666.7};
    for (int i = 1; i <= 600; ++i) {
        const double length = i * 1.1 / 1.0001;
        if (length > 666) break;
        CAPTURE(length);
        for (const WindowLine line : {WindowLine::EndPoint, WindowLine::MinimumZone})
            CHECK(largest_window(x, y, length, line)->value == Approx(0.03 * length / 4).epsilon(1e-9));
    }
}

TEST_CASE("no window of a fine search is above the largest window, and the minimum zone is at most the chord's") {
    CHECK(rc::check([] {
        const auto [x, y] = *profiles();
        const double travel = x.back() - x.front();
        const double length = travel * *rc::gen::inRange(5, 100) / 100.0;
        const auto zone = largest_window(x, y, length, WindowLine::MinimumZone),
                   chord = largest_window(x, y, length, WindowLine::EndPoint);
        RC_ASSERT(zone && chord);
        RC_ASSERT(zone->value <= chord->value + 1e-9);
        const auto height = [&](double at) {
            const auto next =
                std::clamp<std::ptrdiff_t>(std::lower_bound(x.begin(), x.end(), at) - x.begin(), 1, std::ssize(x) - 1);
            const std::size_t i = static_cast<std::size_t>(next);
            return y[i - 1] + (y[i] - y[i - 1]) * (at - x[i - 1]) / (x[i] - x[i - 1]);
        };
        double found_zone = 0, found_chord = 0;
        for (int k = 0; k <= 200; ++k) {
            const double from = x.front() + (travel - length) * k / 200.0;
            Numbers wx{from}, wy{height(from)};
            for (std::size_t i = 0; i < x.size(); ++i)
                if (x[i] > from && x[i] < from + length) {
                    wx.push_back(x[i]);
                    wy.push_back(y[i]);
                }
            wx.push_back(from + length);
            wy.push_back(height(from + length));
            found_zone = std::max(found_zone, straightness(ReferenceLine::MinimumZone, wx, wy));
            found_chord = std::max(found_chord, straightness(ReferenceLine::EndPoint, wx, wy));
        }
        RC_ASSERT(found_zone <= zone->value + 1e-9);
        RC_ASSERT(found_chord <= chord->value + 1e-9);
    }));
}
