#include "evaluate/numbers/spectrum/periodic.hpp"
#include "evaluate/numbers/monte_carlo.hpp"
#include "evaluate/numbers/spectrum/fourier_sums.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace wayfolio::evaluate;
using Values = std::vector<double>;

namespace {

// 21 targets (i - 1) 50 mm + r with |r| <= 15 mm; y = 1 + 0.004 x + 1.2 sin(2 pi x / 12 + 0.5) + noise, rounded (constructed).
const Values places{3.1,   38.3,  108.4, 164.2, 193.7, 235.2, 301.9, 360.6, 396.6, 462.9, 490.9,
                    556.7, 587.5, 650.8, 698.4, 763.7, 792.1, 854.5, 889.8, 959.3, 995.2};
const Values readings{2.14, 2.11, 2.27, 0.64, 2.87, 0.72, 3.67, 3.29, 3.54, 1.67, 3.0,
                      3.45, 3.42, 4.87, 4.91, 3.09, 4.68, 5.62, 5.58, 5.09, 5.05};

}  // namespace

TEST_CASE("a sine fitted with a line has the share, amplitude and phase of an independent least-squares fit") {
    // Fits by numpy (linear least squares on 1, x, cos, sin), periods 300, 24, 12 and 10 mm.
    struct Case {
        double period, z, p, amplitude, phase, slope;
    };
    for (const Case& c : {Case{300, 0.3611865209, 0.022165606, 0.696755505, -0.62508842, 0.00389957133},
                          {24, 0.08292855878, 0.47910085, 0.43571978, -1.7537726, 0.00384795194},
                          {12, 0.971152942, 8.144473e-14, 1.18289998, -1.06911675, 0.00398495557},
                          {10, 0.2016230066, 0.14749188, 0.527947929, 0.172369217, 0.00378274325}}) {
        CAPTURE(c.period);
        const auto fit = fit_periodic(places, readings, 1 / c.period).value();
        CHECK(fit.z == Approx(c.z).epsilon(1e-8));
        CHECK(std::log(fit.p_single) == Approx(std::log(c.p)).epsilon(1e-7));
        CHECK(fit.amplitude == Approx(c.amplitude).epsilon(1e-7));
        CHECK(fit.phase == Approx(c.phase).epsilon(1e-7));
        CHECK(fit.slope == Approx(c.slope).epsilon(1e-7));
    }
}

TEST_CASE("a pure cosine on a line is explained whole") {
    Values x, y;
    for (int i = 0; i < 16; ++i) {
        x.push_back(i);
        y.push_back(0.7 + 0.2 * i + 1.5 * std::cos(2 * 3.14159265358979323846 * 3 * i / 16 + 0.4));
    }
    const auto fit = fit_periodic(x, y, 3 / 16.0).value();
    CHECK(fit.z == Approx(1).epsilon(1e-12));
    CHECK(fit.amplitude == Approx(1.5).epsilon(1e-12));
    CHECK(fit.phase == Approx(0.4).epsilon(1e-12));
    CHECK(fit.slope == Approx(0.2).epsilon(1e-12));
}

TEST_CASE("at the pitch of the targets no amplitude is claimed") {
    // At f = 1/p the cosine depends on the jitter alone and nearly is the offset: a fit would say 1.64 where nothing is.
    CHECK_FALSE(fit_periodic(places, readings, 1 / 50.0).has_value());
}

TEST_CASE("the peak of a band stands at the planted period, with Baluev's bound") {
    const auto peak = periodic_peak(places, readings, 0.001, 0.12).value();
    CHECK(peak.fit.frequency == Approx(1 / 12.0).epsilon(0.001));
    CHECK(peak.fit.z > 0.96);
    CHECK(peak.fit.amplitude == Approx(1.18).margin(0.03));
    CHECK(std::log(baluev_bound(places, 0.971909697, 0.12)) == Approx(std::log(1.456e-10)).epsilon(1e-4));
}

TEST_CASE("noise exceeds Baluev's bound no more often than it says") {
    Draws draws(5);
    int raised = 0;
    const int trials = 400;
    for (int trial = 0; trial < trials; ++trial) {
        Values noise(places.size());
        for (double& value : noise) value = draws.normal(0, 1);
        raised += periodic_peak(places, noise, 0.003, 0.02)->p_band < 0.05;
    }
    CHECK(raised / static_cast<double>(trials) < 0.05 + 3 * std::sqrt(0.05 * 0.95 / trials));
}

TEST_CASE("few values, or values on a line, have no spectrum") {
    CHECK_FALSE(fit_periodic(Values{0, 1, 2, 3, 4}, Values{0, 1, 0, 1, 0}, 0.3).has_value());
    CHECK_FALSE(fit_periodic(places, Values(places.size(), 2.0), 1 / 12.0).has_value());
}

namespace {

/// `count` targets every 2 mm with a jitter of up to 0.6 mm, a bent way, noise, and a wave of this period and height.
std::pair<Values, Values> long_record(std::size_t count, double period, double height) {
    Values x, y;
    Draws draws(count);
    for (std::size_t i = 0; i < count; ++i) {
        x.push_back(2 * static_cast<double>(i) + draws.rectangular(-0.6, 0.6));
        const double share = static_cast<double>(i) / static_cast<double>(count);
        y.push_back(1 + 20 * share * share + height * std::sin(6.283185307179586 * x.back() / period) + draws.normal(0, 1));
    }
    return {x, y};
}

}  // namespace

TEST_CASE("fast sums over uneven places are the plain sums") {
    const auto [x, w] = long_record(300, 7, 3);
    const FrequencyGrid grid{0.0013, 0.00037, 555};
    const FourierSums fast = fourier_sums(x, std::vector<Weighting>{{w, grid}}).front();
    double sizes = 0;
    for (const double weight : w) sizes += std::abs(weight);
    for (std::size_t i = 0; i < grid.count; ++i) {
        double cosine = 0, sine = 0;
        for (std::size_t j = 0; j < x.size(); ++j) {
            cosine += w[j] * std::cos(6.283185307179586 * grid.at(i) * x[j]);
            sine += w[j] * std::sin(6.283185307179586 * grid.at(i) * x[j]);
        }
        CAPTURE(i);
        REQUIRE(std::abs(fast.cosine[i] - cosine) < 1e-10 * sizes);
        REQUIRE(std::abs(fast.sine[i] - sine) < 1e-10 * sizes);
    }
}

TEST_CASE("sums that are had beside each other are those of each alone, to the last digit") {
    const auto [x, w] = long_record(61, 7, 3);
    const FrequencyGrid grid{0.0013, 0.00037, 210}, doubled{0.0026, 0.00074, 210};
    const Values ones(x.size(), 1);
    const std::vector<Weighting> all{{w, grid}, {ones, grid}, {x, grid}, {ones, doubled}, {x, doubled}, {w, grid}};
    const auto sums = fourier_sums(x, all);
    REQUIRE(sums.size() == all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        const FourierSums alone = fourier_sums(x, std::vector<Weighting>{all[i]}).front();
        CAPTURE(i);
        CHECK(sums[i].cosine == alone.cosine);
        CHECK(sums[i].sine == alone.sine);
    }
    CHECK(fourier_sums(x, {}).empty());
}

TEST_CASE("the peak is the largest of all fits of the grid, to the last digit") {
    for (const std::size_t count : {8, 20, 41, 150}) {
        for (const double height : {0.0, 0.3, 2.0}) {
            const auto [x, y] = long_record(count, 9.7, height);
            const int degree = count < 12 ? 1 : 3;
            const double length = x.back() - x.front(), lowest = 3 / length, highest = 0.25, step = 0.05 / length;
            std::optional<PeriodicFit> best;
            for (std::size_t i = 0; lowest + step * static_cast<double>(i) <= highest; ++i) {
                const auto fit = fit_periodic(x, y, lowest + step * static_cast<double>(i), degree);
                if (fit && (!best || fit->z > best->z)) best = fit;
            }
            const auto peak = periodic_peak(x, y, lowest, highest, degree);
            CAPTURE(count, height);
            REQUIRE(peak.has_value() == best.has_value());
            if (!best) continue;
            CHECK(peak->fit.frequency == best->frequency);
            CHECK(peak->fit.z == best->z);
            CHECK(peak->fit.amplitude == best->amplitude);
        }
    }
}

TEST_CASE("a short period is found among thousands of targets, up to the highest frequency that they resolve") {
    const auto [x, y] = long_record(5000, 4.3, 1);
    const auto peak = periodic_peak(x, y, 3 / x.back(), 0.25, 3).value();
    CHECK(1 / peak.fit.frequency == Approx(4.3).epsilon(1e-4));
    CHECK(peak.highest == 0.25);
    CHECK(peak.fit.amplitude == Approx(1).margin(0.1));
}
