#include "support/scatter_jobs.hpp"

#include <catch2/catch.hpp>

#include <map>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using support::Shape;

namespace {

struct Count {
    std::size_t by_U = 0, by_statement = 0;
};

/// What held in so many jobs of one class, by parameter; without anything systematic, where U is smallest.
std::map<std::string, Count> counted(const support::ScatterPlan& plan, std::size_t jobs) {
    std::map<std::string, Count> counts;
    Draws draws(20 + plan.readings);
    for (std::size_t job = 0; job < jobs; ++job)
        for (const char* symbol : {"EXX", "EYX"}) {
            auto made = support::scatter_job(draws, plan, symbol);
            std::erase_if(made.measured.parameters, [](const Parameter& parameter) {
                return parameter.name.ends_with("_positive") || parameter.name.ends_with("_negative") || parameter.name == "B_mean" ||
                       parameter.name == "slope";
            });
            if (made.measured.kind == SeriesKind::Straightness)
                std::erase_if(made.measured.parameters, [](const Parameter& parameter) { return parameter.name == "B"; });
            add_scatter_bias(made.measured, 0);
            for (const Parameter& parameter : made.measured.parameters) {
                const auto one = support::held(made, parameter, plan);
                REQUIRE(one);
                counts[one->parameter].by_U += one->by_U ? 1 : 0;
                counts[one->parameter].by_statement += one->by_statement ? 1 : 0;
            }
        }
    return counts;
}

/// 95 % less three points is what must hold; a count of so many jobs may lie 1.645 of its own standard deviations lower (binomial).
double least_count(std::size_t jobs) {
    const auto n = static_cast<double>(jobs);
    return 0.92 * n - 1.645 * std::sqrt(0.92 * 0.08 * n);
}

constexpr std::size_t jobs = 60;

void check_statements(Shape shape) {
    for (const std::size_t readings : {2u, 3u, 5u, 10u}) {
        const auto counts = counted({.shape = shape, .readings = readings}, jobs);
        REQUIRE(counts.size() == 7);
        for (const auto& [parameter, count] : counts) {
            CAPTURE(readings, parameter, count.by_U);
            CHECK(static_cast<double>(count.by_statement) >= least_count(jobs));
        }
        if (shape != Shape::Flat) continue;
        CHECK(counts.at("E").by_U < 60 * jobs / 100);  // without the bias the statement is false
        CHECK(counts.at("M").by_U < 80 * jobs / 100);
    }
}

}  // namespace

TEST_CASE("on a flat axis the truth lies within what is said of a range, though not within U", "[slow]") {
    check_statements(Shape::Flat);
}

TEST_CASE("on a sloped axis the truth lies within what is said of a range", "[slow]") { check_statements(Shape::Sloped); }

TEST_CASE("on a periodic axis the truth lies within what is said of a range", "[slow]") { check_statements(Shape::Periodic); }
