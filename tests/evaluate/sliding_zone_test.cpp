#include "evaluate/evaluation.hpp"
#include "evaluate/numbers/trace/sliding_zone.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

/// Local straightness of a record on the fly, against all samples of each window.
using namespace wayfolio;
using namespace wayfolio::evaluate;
using Catch::Matchers::Contains;

namespace {

struct Sample {
    double x, y;
};
using Pass = std::vector<Sample>;

/// The least range about any line: it is convex in the slope.
double least_zone(const std::vector<Sample>& samples) {
    const auto range = [&](long double slope) {
        long double low = HUGE_VALL, high = -HUGE_VALL;
        for (const Sample& sample : samples) {
            const long double about = sample.y - slope * (sample.x - samples.front().x);
            low = std::min(low, about);
            high = std::max(high, about);
        }
        return high - low;
    };
    long double left = -100, right = 100;
    for (int i = 0; i < 250; ++i) {
        const long double a = left + (right - left) / 3, b = right - (right - left) / 3;
        (range(a) <= range(b) ? right : left) = range(a) <= range(b) ? b : a;
    }
    return static_cast<double>(range((left + right) / 2));
}

std::vector<Sample> part(const Pass& pass, double from, double to) {
    std::vector<Sample> inside;
    for (const Sample& sample : pass) {
        const double along = std::abs(sample.x - pass.front().x);
        if (along >= from && along <= to) inside.push_back(sample);
    }
    return inside;
}

SlidingZone slid(const std::vector<Pass>& passes, double length) {
    SlidingZone zone(length);
    Passes order(0.01);
    for (const Pass& pass : passes)
        for (const Sample& sample : pass)
            if (Stretch stretch{}; order.next(sample.x, sample.y, stretch)) zone.add(stretch);
    return zone;
}

/// Uneven steps; back by others, so that no sample stands where one stood before. Each begins where the one before ends.
std::vector<Pass> there_and_back(unsigned seed, int passes, double way) {
    std::mt19937 random(seed);
    const auto even = [&] { return static_cast<double>(random()) / 4294967296.0; };
    std::vector<Pass> all;
    double x = 3, y = 0;
    for (int i = 0; i < passes; ++i) {
        Pass pass{{x, y}};
        const double end = i % 2 == 0 ? 3 + way : 3;
        while (std::abs(end - x) > 0.9) {
            x += (end > x ? 1 : -1) * (0.05 + 0.8 * even());
            y = 2 * std::sin(x / 7 + i) + x / 40 + 0.6 * even();
            pass.push_back({x, y});
        }
        all.push_back(std::move(pass));
    }
    return all;
}

double um_of(const TraceLocal& local) { return value_of(local.widest)->value.in(units::micrometre); }

}  // namespace

TEST_CASE("the widest window of a trace is the widest of all windows along its passes, and none anywhere is wider than is said") {
    for (const unsigned seed : {1U, 2U, 3U}) {
        const std::vector<Pass> passes = there_and_back(seed, 3, 61.7);
        constexpr double length = 12.5, step = length / SlidingZone::steps;
        double widest = 0, anywhere = 0;
        for (const Pass& pass : passes) {
            const double way = std::abs(pass.back().x - pass.front().x);
            for (int i = 0; step * i + length <= way + step; ++i)
                widest = std::max(widest, least_zone(part(pass, step * i, step * i + length)));
            for (const Sample& sample : pass) {
                const double along = std::abs(sample.x - pass.front().x);
                anywhere = std::max(anywhere, least_zone(part(pass, along, along + length)));
            }
        }
        const auto found = slid(passes, length).largest();
        REQUIRE(found);
        CHECK(found->value == Approx(widest).epsilon(1e-9));
        CHECK(found->at_most >= anywhere * (1 - 1e-12));
        CHECK(found->at_most < 1.2 * found->value);
        // The window that is named has that width.
        double named = 0;
        for (const Pass& pass : passes) {
            std::vector<Sample> inside;
            for (const Sample& sample : pass)
                if (sample.x >= found->from - 1e-9 && sample.x <= found->to + 1e-9) inside.push_back(sample);
            named = std::max(named, least_zone(inside));
        }
        CHECK(named == Approx(found->value).epsilon(1e-9));
        CHECK(found->to - found->from == Approx(length));
    }
}

TEST_CASE("a window as long as the pass holds both of its ends; a shorter pass has none") {
    Pass pass;
    for (int i = 0; i <= 300; ++i) pass.push_back({static_cast<double>(i), i == 300 ? 5.0 : 0.0});
    const auto whole = slid({pass}, 300).largest();
    REQUIRE(whole);
    CHECK(whole->at_most == Approx(least_zone(pass)).epsilon(1e-9));
    CHECK(whole->value == whole->at_most);
    CHECK_FALSE(slid({pass}, 300.5).largest());
    const auto parabola = [](double x) { return x * x; };
    Pass curve;
    for (int i = 0; i <= 6'000; ++i) curve.push_back({i / 10.0, parabola(i / 10.0)});
    // The zone of x^2 over L is L^2 / 4 wherever the window stands.
    CHECK(slid({curve}, 100).largest()->value == Approx(2'500).epsilon(1e-9));
    CHECK(slid({curve}, 100).largest()->at_most == Approx(102 * 102 / 4.0).epsilon(1e-9));
}

TEST_CASE("a hole in a trace many windows long costs nothing, and is told by the longest way between two samples") {
    const auto zone = slid({{{0, 0}, {0.5, 1}, {1, 0}, {1e6, 0}, {1e6 + 0.5, 3}, {1e6 + 1, 0}}}, 1);
    CHECK(zone.longest_stretch() == 999'999);
    CHECK(zone.largest()->value == Approx(3));
}

TEST_CASE("windows of a trace that holds too few samples for them, or is too short, are not evaluated, and say why") {
    const auto local_of = [](int count, double to) {
        document::Series series = support::series("EYX", {}, {}, {}, units::micrometre, units::position_millimetre);
        series.trace.emplace();
        for (int i = 0; i < count; ++i)
            series.trace->samples.push_back({{to * i / (count - 1), units::position_millimetre}, {i % 2 * 1.0, units::micrometre}});
        return evaluate::evaluate(support::document(series)).series.at(0).trace->local;
    };
    const auto why = [&](int count, double to) { return std::get<NotEvaluated>(local_of(count, to).at(0).widest).reason; };
    CHECK_THAT(why(11, 1'000), Contains("samples are up to 100 mm apart: each window needs four at least"));
    CHECK_THAT(why(1'001, 100), Contains("no pass is 300 mm long"));
    CHECK(local_of(10'001, 2'500).size() == 2);  // 300 mm and 1 000 mm
    CHECK(um_of(local_of(10'001, 2'500).at(1)) == Approx(1));
}
