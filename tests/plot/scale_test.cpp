#include "plot/scale.hpp"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

using namespace wayfolio::plot;

TEST_CASE("ticks are round numbers that enclose the data") {
    CHECK(enclosing_ticks(-16.2, 28.4, 6).values == std::vector<double>{-20, -10, 0, 10, 20, 30});
    CHECK(enclosing_ticks(0.05, 0.31, 4).values == std::vector<double>{0, 0.1, 0.2, 0.3, 0.4});
    CHECK(enclosing_ticks(0.05, 0.31, 4).decimals == 1);
}

TEST_CASE("data that end on a tick do not ask for one more") {
    CHECK(enclosing_ticks(-4, 40, 6).high() == 40);
}

TEST_CASE("equal data still get a scale") {
    const Ticks ticks = enclosing_ticks(7, 7, 5);
    CHECK(ticks.low() < 7);
    CHECK(ticks.high() > 7);
}

TEST_CASE("ticks of a position axis stay inside the travel") {
    CHECK(inside_ticks(0.0222, 6.38, 8).values == std::vector<double>{1, 2, 3, 4, 5, 6});
    CHECK(inside_ticks(0, 360, 8).values == std::vector<double>{0, 50, 100, 150, 200, 250, 300, 350});
}

TEST_CASE("enclosing ticks cover any range with the wanted number of steps") {
    CHECK(rc::check([](int low_seed, int width_seed) {
        const double low = low_seed / 7.0, high = low + 1e-3 + std::abs(width_seed / 11.0);
        const Ticks ticks = enclosing_ticks(low, high, 6);
        RC_ASSERT(ticks.low() <= low + 1e-6 * (high - low));
        RC_ASSERT(ticks.high() >= high - 1e-6 * (high - low));
        RC_ASSERT(ticks.values.size() >= 2u);
        RC_ASSERT(ticks.values.size() <= 7u);
    }));
}

TEST_CASE("a range that doubles cannot divide gets a scale about it, in a few steps") {
    struct Range {
        double low, high;
    };
    for (const Range& range : {Range{1000, 1000.0000000000001}, {0, 1e-307}, {0, 5e-324}, {-1e-30, 1e-30}, {1e6, 1e6 + 1e-9},
                               {-36000, -35999.999999999}}) {
        CAPTURE(range.low, range.high);
        const auto ticks = enclosing_ticks(range.low, range.high, 6);
        CHECK(ticks.values.size() >= 2);
        CHECK(ticks.values.size() <= 7);
        CHECK(ticks.high() > ticks.low());
        CHECK(ticks.low() <= range.low);
        CHECK(ticks.high() >= range.high);
        CHECK(ticks.decimals <= 10);
        CHECK(inside_ticks(range.low, range.high, 8).values.size() <= 8);
    }
}

TEST_CASE("a scale about 0 has three ticks, however few are asked for") {
    for (const int most : {-1, 0, 1}) CHECK(enclosing_ticks(-1, 1, most).values.size() == 3);
    for (const int most : {-1, 0, 1}) CHECK(inside_ticks(-1, 1, most).values == std::vector<double>{0});
}
