#include "evaluate/review/hints.hpp"
#include "evaluate/series/positioning.hpp"
#include "support/simulated_axis.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

SeriesHints hints_of(const document::Document& document) {
    const auto all = evaluate_hints(document, {evaluate_positioning(document, document.series[0])});
    REQUIRE(all.size() == 1);
    return all[0];
}

SeriesHints planted(const support::Fault& fault) { return hints_of(support::simulated_job(1, {}, fault)); }

template <class T>
const T& got(const Evaluated<T>& hint) {
    REQUIRE(value_of(hint) != nullptr);
    return *value_of(hint);
}

}  // namespace

TEST_CASE("a clean job raises no hint, and each test says its statistic and level") {
    const auto hints = planted({});
    CHECK(hints.level == Approx(family_level * (1 - single_reading_part) / 7));
    CHECK(got(hints.outlier).level == Approx(family_level * single_reading_part));
    CHECK_FALSE(got(hints.drift).raised);
    CHECK(got(hints.drift).degrees_of_freedom == 7);
    CHECK(got(hints.drift).rank_p.has_value());
    CHECK_FALSE(got(hints.growth).raised);
    CHECK_FALSE(got(hints.apart).raised);
    CHECK_FALSE(got(hints.jump).raised);
    CHECK_FALSE(got(hints.swapped).raised);
    CHECK_FALSE(got(hints.missed_count).raised);
    CHECK_FALSE(got(hints.outlier).raised);
    CHECK(got(hints.outlier).critical > std::abs(got(hints.outlier).T));
    CHECK_FALSE(got(hints.periodic).raised);
    CHECK_FALSE(got(hints.closure).raised);
}

TEST_CASE("a drift over the runs is found with its size") {
    const auto hints = planted([](const support::Taken& taken) { return 0.2 * taken.order; });
    CHECK(got(hints.drift).raised);
    CHECK(got(hints.drift).change == Approx(1.8).margin(0.3));
    CHECK(got(hints.drift).per_hour == Approx(2.4).margin(0.4));  // a run every five minutes
}

TEST_CASE("without times a drift goes by the order of all runs, both directions counted") {
    // Ten runs in turn, each 0.2 µm above the one before it: 1.8 µm from the first to the last, exactly.
    auto document = support::simulated_job(1, {}, [](const support::Taken& taken) { return 0.2 * taken.order; });
    REQUIRE(document.series[0].runs.size() == 10);
    const double timed = got(hints_of(document).drift).change;
    for (auto& run : document.series[0].runs) run.started = run.ended = "";
    const auto drift = got(hints_of(document).drift);
    CHECK(drift.change == Approx(timed).epsilon(1e-9));  // its runs began every five minutes
    CHECK(drift.per_hour == 0);
    // A day without a time of day tells no order either.
    for (auto& run : document.series[0].runs) run.started = "2026-05-11";
    CHECK(got(hints_of(document).drift).change == Approx(timed).epsilon(1e-9));
}

TEST_CASE("growth along the axis is found per metre") {
    const auto hints = planted([](const support::Taken& taken) { return 0.3 * taken.order * taken.x / 1000; });
    CHECK(got(hints.growth).raised);
    CHECK(got(hints.growth).change == Approx(2.7).margin(0.5));
}

TEST_CASE("one run apart is named") {
    // Downwards: 1.5 µm upwards is just the reversal, and the run would pass for one of the other approach.
    const auto hints = planted([](const support::Taken& taken) { return taken.order == 6 ? -1.5 : 0; });
    CHECK(got(hints.apart).raised);
    CHECK(got(hints.apart).run == 6);
    CHECK(got(hints.apart).by == Approx(-1.5).margin(0.4));
}

TEST_CASE("one reading far off is named, and set aside by nobody") {
    const auto hints = planted([](const support::Taken& taken) { return taken.order == 3 && taken.target == 4 ? 2.5 : 0; });
    CHECK(got(hints.outlier).raised);
    CHECK(got(hints.outlier).run == 3);
    CHECK(got(hints.outlier).target == 4);
}

TEST_CASE("a jump of all later runs is named with the first of them, and is no drift") {
    const auto hints = planted([](const support::Taken& taken) { return taken.order >= 4 ? 0.9 : 0; });
    CHECK(got(hints.jump).raised);
    CHECK(got(hints.jump).run == 4);
    CHECK(got(hints.jump).by == Approx(0.9).margin(0.2));
    CHECK_FALSE(got(hints.drift).raised);
    CHECK_FALSE(got(hints.missed_count).raised);
}

TEST_CASE("a missed count is named with the run and the first target that is off, in the order of travel") {
    // Run 5 travels down: its readings from the ninth target on downwards are off.
    const auto once = planted([](const support::Taken& taken) { return taken.order == 5 && taken.target <= 8 ? 1.5 : 0; });
    REQUIRE(got(once.missed_count).raised);
    CHECK(got(once.missed_count).run == 5);
    CHECK(got(once.missed_count).target == 8);
    CHECK(got(once.missed_count).by == Approx(1.5).margin(0.4));
    CHECK_FALSE(got(once.missed_count).stays);
    const auto stays =
        planted([](const support::Taken& taken) { return taken.order > 5 || (taken.order == 5 && taken.target <= 6) ? 1.5 : 0; });
    REQUIRE(got(stays.missed_count).raised);
    CHECK(got(stays.missed_count).run == 5);
    CHECK(got(stays.missed_count).target == 6);
    CHECK(got(stays.missed_count).stays);
    CHECK_FALSE(got(stays.jump).raised);
}

TEST_CASE("two readings of a run that were exchanged are named together, not as possible outliers") {
    auto document = support::simulated_job(1, {}, {});
    std::swap(document.series[0].runs[3].deviations[2], document.series[0].runs[3].deviations[10]);
    const auto hints = hints_of(document);
    REQUIRE(got(hints.swapped).raised);
    CHECK(got(hints.swapped).run == 3);
    CHECK(got(hints.swapped).targets == std::array<std::size_t, 2>{2, 10});
    CHECK_FALSE(got(hints.outlier).raised);
}

TEST_CASE("a reading ten times too large is told from any other that stands off") {
    auto document = support::simulated_job(1, {}, {});
    auto& reading = document.series[0].runs[2].deviations[12];
    reading = *reading * 10.0;
    CHECK(got(hints_of(document).outlier).decimal_slip == 1);
    CHECK_FALSE(got(planted([](const auto& taken) { return taken.order == 2 && taken.target == 12 ? 4.0 : 0; }).outlier).decimal_slip);
}

TEST_CASE("a run that looks written down wrongly is left out of the other tests") {
    auto document = support::simulated_job(1, {}, {});
    for (auto& reading : document.series[0].runs[4].deviations) reading = *reading * -1.0;
    const auto hints = hints_of(document);
    CHECK(hints.left_out == std::vector<std::size_t>{4});
    CHECK_FALSE(got(hints.apart).raised);
    CHECK_FALSE(got(hints.outlier).raised);
}

TEST_CASE("a periodic error that the targets resolve is found with its period and its aliases") {
    support::AxisPlan plan;
    plan.targets = 26;
    const auto hints = hints_of(support::simulated_job(
        2, plan, [](const support::Taken& taken) { return 1.2 * std::sin(2 * units::pi * taken.x / 170); }));
    const auto& periodic = got(hints.periodic);
    CHECK(periodic.raised);
    CHECK(periodic.period == Approx(170).epsilon(0.03));
    CHECK(periodic.amplitude == Approx(1.2).margin(0.2));
    CHECK(periodic.shortest_resolved == Approx(80));
    REQUIRE(periodic.aliases.size() == 2);
    CHECK(periodic.aliases[0] == Approx(1 / (1 / 40.0 - 1 / periodic.period)));
}

TEST_CASE("cycles that do not close show in the reversal at the ends") {
    const auto hints = planted([](const support::Taken& taken) { return taken.positive ? 0 : 1.2 * (1 - taken.x / 1000); });
    CHECK(got(hints.closure).raised);
    CHECK(got(hints.closure).difference == Approx(-1.2).margin(0.5));
}

TEST_CASE("what the readings cannot support is not tested, with the reason") {
    support::AxisPlan plan;
    plan.runs_each_way = 1;
    plan.targets = 5;
    const auto hints = hints_of(support::simulated_job(1, plan, {}));
    CHECK(std::get<NotEvaluated>(hints.drift).reason == "too few runs for a trend");
    CHECK(std::holds_alternative<NotEvaluated>(hints.outlier));
    CHECK(std::get<NotEvaluated>(hints.periodic).reason == "fewer than eight targets resolve no period");
}

TEST_CASE("a document can switch the hints off") {
    auto document = support::simulated_job(1, {}, {});
    document.evaluation.hints = false;
    CHECK(evaluate_hints(document, {evaluate_positioning(document, document.series[0])}).empty());
}

TEST_CASE("the level is shared among the series of a document") {
    auto document = support::simulated_job(1, {}, {});
    document.series.push_back(document.series[0]);
    const auto evaluated = evaluate_positioning(document, document.series[0]);
    const auto both = evaluate_hints(document, {evaluated, evaluated});
    CHECK(both[1].level == Approx(family_level * (1 - single_reading_part) / 14));
    CHECK(got(both[1].outlier).level == Approx(family_level * single_reading_part / 2));
}
