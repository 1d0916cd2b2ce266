#include "evaluate/numbers/budget.hpp"
#include "evaluate/numbers/expansion.hpp"
#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/numbers/statistics.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio::evaluate;

namespace {

Component single(std::string name, double standard, double sensitivity = 1, std::optional<double> nu = {}) {
    Component component;
    component.name = std::move(name);
    component.standard = standard;
    component.sensitivity = sensitivity;
    component.degrees_of_freedom = nu;
    return component;
}

Component together(Law law, std::vector<Component> parts) {
    Component component;
    component.law = law;
    component.parts = std::move(parts);
    return component;
}

}  // namespace

TEST_CASE("the end gauge of GUM H.1 has its printed combined uncertainty, degrees of freedom and coverage") {
    const double l_s = 50000623, root3 = std::sqrt(3.0);
    const Component d =
        together(Law::Quadrature, {single("repeated observations", 5.8, 1, 24), single("comparator, random", 3.9, 1, 5),
                                   single("comparator, systematic", 6.7, 1, 8)});
    CHECK(combine(d).standard == Approx(9.6819).margin(5e-5));          // printed 9.7 nm
    CHECK(*combine(d).degrees_of_freedom == Approx(25.6).margin(0.2));  // the GUM rounds on its way; exact 25.45
    const Component gauge = together(
        Law::Quadrature, {single("standard", 25, 1, 18), d, single("difference of expansion", 1e-6 / root3, -l_s * -0.1, 50),
                          single("difference of temperature", 0.05 / root3, -l_s * 11.5e-6, 2)});
    const auto parts = shares(gauge);
    REQUIRE(parts.size() == 6);
    CHECK(parts[4].contribution == Approx(2.8868).margin(5e-5));  // printed 2.9 nm
    CHECK(parts[5].contribution == Approx(16.599).margin(5e-4));  // printed 16.6 nm
    const Combined combined = combine(gauge);
    CHECK(combined.standard == Approx(31.6639).margin(5e-5));            // printed 32 nm
    CHECK(*combined.degrees_of_freedom == Approx(16.752).margin(5e-4));  // printed 16.7
    CHECK(truncated(*combined.degrees_of_freedom) == 16);
    const double k = coverage_factor(16.0, 0.99);
    CHECK(k == Approx(2.92).margin(0.005));
    CHECK(std::ceil(k * combined.standard) == 93);  // U99 = 93 nm, unrounded 92.5
    double sum = 0;
    for (const Share& part : parts) sum += part.share;
    CHECK(sum == Approx(1).epsilon(1e-14));
}

TEST_CASE("the resistance and reactance of GUM H.2 come from its five sets of readings") {
    // Second approach of H.2.4: each set is evaluated, the mean and its standard uncertainty follow; the printed values are the
    // same.
    const std::vector<double> volt{5.007, 4.994, 5.005, 4.990, 4.999},
        ampere{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}, phase{1.0456, 1.0438, 1.0468, 1.0428, 1.0433};
    std::vector<double> resistance, reactance, impedance;
    for (std::size_t i = 0; i < volt.size(); ++i) {
        impedance.push_back(volt[i] / ampere[i]);
        resistance.push_back(impedance.back() * std::cos(phase[i]));
        reactance.push_back(impedance.back() * std::sin(phase[i]));
    }
    const auto type_a = [](const std::vector<double>& values) { return standard_deviation(values) / std::sqrt(5.0); };
    CHECK(mean(resistance) == Approx(127.732).margin(5e-4));
    CHECK(type_a(resistance) == Approx(0.071).margin(5e-4));
    CHECK(mean(reactance) == Approx(219.847).margin(5e-4));
    CHECK(type_a(reactance) == Approx(0.295).margin(6e-4));
    CHECK(mean(impedance) == Approx(254.260).margin(5e-4));
    CHECK(type_a(impedance) == Approx(0.236).margin(5e-4));
}

TEST_CASE("the thermometer calibration line of GUM H.3 has its printed parameters and uncertainties") {
    std::vector<double> t{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511};
    const std::vector<double> b{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160};
    for (double& x : t) x -= 20;
    const LineFit fit = fit_line(t, b);
    CHECK(fit.line.at(0) == Approx(-0.1712).margin(5e-5));
    CHECK(fit.u_intercept == Approx(0.0029).margin(5e-5));
    CHECK(fit.line.slope == Approx(0.00218).margin(5e-6));
    CHECK(fit.u_slope == Approx(0.00067).margin(5e-6));
    CHECK(fit.correlation == Approx(-0.930).margin(5e-4));
    CHECK(fit.residual_standard_deviation == Approx(0.0035).margin(5e-5));
    CHECK(fit.line.at(10) == Approx(-0.1494).margin(5e-5));
    CHECK(fit.u_at(10) == Approx(0.0041).margin(6e-5));
    CHECK(fit.degrees_of_freedom == 9);
}

TEST_CASE("the uncertainty of NIST's Norris line is certified") {
    // NIST/ITL StRD, Linear Regression, Norris: standard deviation of the estimates and residual standard deviation, certified.
    const std::vector<double> x{0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                                0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                                0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
    const std::vector<double> y{0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                                0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                                0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
    const LineFit fit = fit_line(x, y);
    CHECK(fit.u_slope == Approx(0.429796848199937e-3).epsilon(1e-12));
    CHECK(fit.u_intercept == Approx(0.232818234301152).epsilon(1e-12));
    CHECK(fit.residual_standard_deviation == Approx(0.884796396144373).epsilon(1e-12));
}

TEST_CASE("the product of GUM G.4.1 has nu 19.0 and U95 2.2 %") {
    const Combined combined =
        combine(together(Law::Quadrature, {single("X1", 0.25, 1, 9), single("X2", 0.57, 1, 4), single("X3", 0.82, 1, 14)}));
    CHECK(combined.standard == Approx(1.03).margin(0.005));
    CHECK(*combined.degrees_of_freedom == Approx(19.0).margin(0.05));
    CHECK(coverage_factor(19.0, 0.95) == Approx(2.09).margin(0.005));
    CHECK(coverage_factor(19.0, 0.95) * combined.standard == Approx(2.2).margin(0.05));
}

TEST_CASE("coverage factors are those of GUM table G.2") {
    // Columns p: 68.27 %, 90 %, 95 %, 95.45 %, 99 %, 99.73 %. The first, fourth and last stand for exactly 1, 2 and 3 sigma.
    const double p1 = std::erf(1 / std::sqrt(2.0)), p2 = std::erf(2 / std::sqrt(2.0)), p3 = std::erf(3 / std::sqrt(2.0));
    const std::vector<double> coverage{p1, 0.90, 0.95, p2, 0.99, p3};
    const std::vector<std::pair<double, std::vector<double>>> rows{
        {1, {1.84, 6.31, 12.71, 13.97, 63.66, 235.80}},   {2, {1.32, 2.92, 4.30, 4.53, 9.92, 19.21}},
        {3, {1.20, 2.35, 3.18, 3.31, 5.84, 9.22}},        {4, {1.14, 2.13, 2.78, 2.87, 4.60, 6.62}},
        {5, {1.11, 2.02, 2.57, 2.65, 4.03, 5.51}},        {8, {1.07, 1.86, 2.31, 2.37, 3.36, 4.28}},
        {10, {1.05, 1.81, 2.23, 2.28, 3.17, 3.96}},       {16, {1.03, 1.75, 2.12, 2.17, 2.92, 3.54}},
        {20, {1.03, 1.72, 2.09, 2.13, 2.85, 3.42}},       {50, {1.01, 1.68, 2.01, 2.05, 2.68, 3.16}},
        {100, {1.005, 1.660, 1.984, 2.025, 2.626, 3.077}}};
    for (const auto& [nu, factors] : rows)
        for (std::size_t i = 0; i < coverage.size(); ++i) {
            CAPTURE(nu, coverage[i]);
            CHECK(coverage_factor(nu, coverage[i]) == Approx(factors[i]).margin(nu == 100 ? 5.1e-4 : 0.0051));
            CHECK(coverage_reached(nu, coverage_factor(nu, coverage[i])) == Approx(coverage[i]).epsilon(1e-12));
        }
    const std::vector<double> infinite{1.000, 1.645, 1.960, 2.000, 2.576, 3.000};
    for (std::size_t i = 0; i < coverage.size(); ++i)
        CHECK(coverage_factor(std::nullopt, coverage[i]) == Approx(infinite[i]).margin(5.1e-4));
    // Row 5 of the table read backwards: 2.02 covers 90 %, so 2 a little less.
    CHECK(coverage_reached(5, 2) == Approx(0.898).margin(5e-4));
    CHECK(coverage_reached(std::nullopt, 2) == Approx(p2).epsilon(1e-12));
}

TEST_CASE("correlated contributors are added before squaring and count as one") {
    const Component pair = together(Law::Sum, {single("a", 0.3, 2, 10), single("b", 0.4)});
    CHECK(combine(pair).standard == Approx(1.0));
    CHECK(*combine(pair).degrees_of_freedom == Approx(1.0 / (0.36 / 10)));
    const Component total = together(Law::Quadrature, {pair, single("c", 1.0)});
    CHECK(combine(total).standard == Approx(std::sqrt(2.0)));
    const auto parts = shares(total);
    CHECK(parts[0].share == Approx(0.3));
    CHECK(parts[1].share == Approx(0.2));
    CHECK(parts[2].share == Approx(0.5));
}

TEST_CASE("opposite contributions of one cause cancel") {
    CHECK(combine(together(Law::Sum, {single("a", 0.3, 1), single("a", 0.3, -1)})).standard == 0);
}

TEST_CASE("the contributors of a length add up to the constructed case") {
    // Own numbers, exact rectangular factors: L = 1.75 m, U = 0.6 um/m, R(alignment) = 2 mm, alpha = 12, R(theta) = 0.5, dT = 4,
    // R(alpha) = 2, E_VE = 1.5 um. Expanded with k = 2: 1.05, 0.6598, 6.0622, 8.0829, 0.8660, together 10.2162 um.
    const double L = 1.75;
    const Component device = single("device", 0.3, L),
                    alignment = single("misalignment", rectangular_standard(2 * 2 / (2 * L)), 1),
                    temperature = single("temperature", rectangular_standard(0.5), 12 * L),
                    alpha = single("expansion", rectangular_standard(2), 4 * L),
                    drift = single("drift", rectangular_standard(1.5));
    CHECK(2 * combine(device).standard == Approx(1.05));
    CHECK(2 * combine(alignment).standard == Approx(0.6598288790738581));
    CHECK(2 * combine(temperature).standard == Approx(6.062177826491071));
    CHECK(2 * combine(alpha).standard == Approx(8.082903768654761));
    CHECK(2 * combine(drift).standard == Approx(0.8660254037844388));
    CHECK(2 * combine(together(Law::Quadrature, {device, alignment, temperature, alpha, drift})).standard ==
          Approx(10.216222760051448));
}

TEST_CASE("the uncertainty of s from five readings is more than a third of it") {
    CHECK(uncertainty_of_standard_deviation(1, 5) == Approx(1 / std::sqrt(8.0)));
}
