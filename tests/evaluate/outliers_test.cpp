#include "evaluate/numbers/outliers.hpp"
#include "evaluate/numbers/monte_carlo.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio::evaluate;

TEST_CASE("the critical values of the pooled test are those of its formula") {
    // Derived: 2 m groups of five, N = 10 m readings, nu = 8 m.
    CHECK(critical_T(50, 40, 0.05) == Approx(3.13092365).epsilon(1e-8));
    CHECK(critical_T(110, 88, 0.05) == Approx(3.41432983).epsilon(1e-8));
    CHECK(critical_T(110, 88, 0.01) == Approx(3.77880083).epsilon(1e-8));
    CHECK(critical_T(210, 168, 0.05) == Approx(3.61761517).epsilon(1e-8));
}

TEST_CASE("for a single group the test is that of Grubbs") {
    // G = T sqrt((n - 1) / n); two-sided 5 % critical values of Grubbs as tabled (1.715, 1.887, 2.290) and recomputed.
    const auto grubbs = [](double n, double alpha) { return critical_T(n, n - 1, alpha) * std::sqrt((n - 1) / n); };
    CHECK(grubbs(5, 0.05) == Approx(1.71503731).epsilon(1e-8));
    CHECK(grubbs(6, 0.05) == Approx(1.88714512).epsilon(1e-8));
    CHECK(grubbs(10, 0.05) == Approx(2.28995408).epsilon(1e-8));
    CHECK(grubbs(5, 0.01) == Approx(1.76367848).epsilon(1e-8));
}

TEST_CASE("the outlier of NIST's uranium example is found with its printed statistic") {
    // NIST/SEMATECH e-Handbook 1.3.5.17.1: G 2.4687 (cut, not rounded), s 15.85256; p recomputed, one-sided 1.50132e-7.
    const auto found = farthest_reading({{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57}}).value();
    CHECK(found.place == 7);
    CHECK(found.s_pooled == Approx(15.8525644).epsilon(1e-8));
    CHECK(found.T * std::sqrt(7.0 / 8.0) == Approx(2.468764611).epsilon(1e-9));
    CHECK(found.p == Approx(2 * 1.50132e-7).epsilon(1e-4));
}

TEST_CASE("clean readings raise the pooled test at its level") {
    // Simulated elsewhere for eleven targets, five runs each way: 0.0503 (standard error 0.0005) at 5 %.
    Draws draws(11);
    int raised = 0;
    const int trials = 4000;
    for (int trial = 0; trial < trials; ++trial) {
        std::vector<Group> groups(22, Group(5));
        for (Group& group : groups)
            for (double& reading : group) reading = draws.normal(0, 1);
        raised += farthest_reading(groups)->p < 0.05;
    }
    CHECK(std::abs(raised / static_cast<double>(trials) - 0.0503) < 4 * std::sqrt(0.05 * 0.95 / trials));
}

TEST_CASE("readings without scatter have no farthest one") {
    CHECK_FALSE(farthest_reading({{1, 1, 1}, {2, 2, 2}}).has_value());
    CHECK_FALSE(farthest_reading({{1, 2}}).has_value());
    CHECK_FALSE(farthest_reading({}).has_value());
}
