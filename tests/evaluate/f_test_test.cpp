#include "evaluate/numbers/f_test.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <random>

using namespace wayfolio::evaluate;
using Catch::Matchers::WithinRel;

TEST_CASE("the F test gives the tail of Fisher's distribution") {
    // Two and two degrees of freedom: 1 / (1 + F); one and one: 1 - 2 / pi atan(sqrt F). [derived]
    CHECK_THAT(FTest(2, 2, 0.1).p(3), WithinRel(0.25, 1e-12));
    CHECK_THAT(FTest(1, 1, 0.1).p(4), WithinRel(1 - 2 / 3.14159265358979323846 * std::atan(2.0), 1e-12));
    CHECK(FTest(2, 2, 0.1).p(std::numeric_limits<double>::infinity()) == 0);
}

TEST_CASE("a ratio stands out where its probability is below the level, whatever was asked before") {
    std::mt19937_64 random(7);
    for (const double level : {0.1, 1e-4, 1e-6}) {
        FTest test(1, 47, level);
        std::lognormal_distribution<double> ratios(level == 0.1 ? 1 : 3, 1);
        for (int i = 0; i < 500; ++i) {
            const double F = ratios(random);
            CAPTURE(level, F);
            CHECK(test.stands_out(F) == (test.p(F) < level));
        }
        CHECK_FALSE(test.stands_out(0));
        CHECK(test.stands_out(std::numeric_limits<double>::infinity()));
    }
}

TEST_CASE("at the level itself a ratio does not stand out, and those beside it are judged by themselves") {
    FTest test(2, 2, 0.25);  // reached by F = 3
    const double next = std::nextafter(3.0, 4.0), before = std::nextafter(3.0, 2.0);
    for (const double F : {3.0, next, before, 3.0}) CHECK(test.stands_out(F) == (test.p(F) < 0.25));
    CHECK(test.stands_out(3.1));
    CHECK_FALSE(test.stands_out(2.9));
}
