#include "support/evaluations.hpp"

#include <rapidcheck.h>
#include <boost/math/statistics/univariate_statistics.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

// Invariants that follow from the definitions by algebra. Readings are multiples of 1/8 um: sums, differences and means of four
// are exact, so that only s and B_mean need a tolerance.
using namespace wayfolio;
using support::Rows;
using support::value;

namespace {

struct Measured {
    std::vector<double> targets;
    Rows positive, negative;
};

const std::vector<std::string> range_names{"A", "A_positive", "A_negative", "E", "E_positive", "E_negative",
                                           "R", "R_positive", "R_negative", "B", "M"};

rc::Gen<Rows> runs(std::size_t count, std::size_t targets) {
    const auto reading = rc::gen::map(rc::gen::inRange(-400, 400), [](int eighths) { return eighths / 8.0; });
    return rc::gen::container<Rows>(count, rc::gen::container<std::vector<double>>(targets, reading));
}

/// Two to eight targets, four runs each way.
Measured any_axis() {
    const auto targets = static_cast<std::size_t>(*rc::gen::inRange(2, 9));
    Measured measured{std::vector<double>(targets), *runs(4, targets), *runs(4, targets)};
    std::iota(measured.targets.begin(), measured.targets.end(), 0.0);
    return measured;
}

evaluate::SeriesEvaluation evaluated_of(const Measured& measured) {
    return support::evaluated(support::series("EXX", measured.targets, measured.positive, measured.negative));
}

template <class Change>
Measured changed(Measured measured, Change change) {
    for (auto* rows : {&measured.positive, &measured.negative})
        for (auto& row : *rows)
            for (double& reading : row) reading = change(reading);
    return measured;
}

void assert_close(double found, double expected) { RC_ASSERT(std::abs(found - expected) <= 1e-11 * (1 + std::abs(expected))); }

}  // namespace

TEST_CASE("adding a constant to every reading moves the means and nothing else") {
    CHECK(rc::check([] {
        const auto measured = any_axis();
        const double constant = *rc::gen::inRange(-100000, 100000) / 8.0;
        const auto before = evaluated_of(measured), after = evaluated_of(changed(measured, [&](double x) { return x + constant; }));
        for (const auto& name : range_names) assert_close(value(after, name), value(before, name));
        assert_close(value(after, "B_mean"), value(before, "B_mean"));
        for (std::size_t i = 0; i < measured.targets.size(); ++i)
            RC_ASSERT(after.targets[i].one_way.positive.mean->in(units::micrometre) ==
                      before.targets[i].one_way.positive.mean->in(units::micrometre) + constant);
    }));
}

TEST_CASE("changing the sign of every reading turns means and reversals and leaves every range") {
    CHECK(rc::check([] {
        const auto measured = any_axis();
        const auto before = evaluated_of(measured), after = evaluated_of(changed(measured, [](double x) { return -x; }));
        for (const auto& name : range_names) assert_close(value(after, name), value(before, name));
        RC_ASSERT(value(after, "B_mean") == -value(before, "B_mean"));
        for (std::size_t i = 0; i < measured.targets.size(); ++i) {
            RC_ASSERT(*after.targets[i].mean == -*before.targets[i].mean);
            RC_ASSERT(*after.targets[i].reversal == -*before.targets[i].reversal);
            RC_ASSERT(*after.targets[i].one_way.negative.s == *before.targets[i].one_way.negative.s);
        }
    }));
}

TEST_CASE("swapping the directions turns the reversals and exchanges what belongs to one direction") {
    CHECK(rc::check([] {
        const auto measured = any_axis();
        const auto before = evaluated_of(measured), after = evaluated_of({measured.targets, measured.negative, measured.positive});
        for (const auto* name : {"A", "E", "R", "B", "M"}) assert_close(value(after, name), value(before, name));
        for (const std::string name : {"A", "E", "R"}) {
            RC_ASSERT(value(after, name + "_positive") == value(before, name + "_negative"));
            RC_ASSERT(value(after, name + "_negative") == value(before, name + "_positive"));
        }
        RC_ASSERT(value(after, "B_mean") == -value(before, "B_mean"));
    }));
}

TEST_CASE("scaling the readings scales every parameter") {
    CHECK(rc::check([] {
        const auto measured = any_axis();
        const double factor = *rc::gen::inRange(1, 1000) / 16.0;
        const auto before = evaluated_of(measured), after = evaluated_of(changed(measured, [&](double x) { return factor * x; }));
        for (const auto& name : range_names) assert_close(value(after, name), factor * value(before, name));
        assert_close(value(after, "B_mean"), factor * value(before, "B_mean"));
    }));
}

TEST_CASE("the order of the runs changes nothing but rounding") {
    CHECK(rc::check([] {
        auto measured = any_axis();
        const auto before = evaluated_of(measured);
        std::rotate(measured.positive.begin(), measured.positive.begin() + *rc::gen::inRange(0, 4), measured.positive.end());
        std::reverse(measured.negative.begin(), measured.negative.end());
        const auto after = evaluated_of(measured);
        for (const auto& name : range_names) assert_close(value(after, name), value(before, name));
    }));
}

TEST_CASE("the order of the targets changes nothing") {
    CHECK(rc::check([] {
        auto measured = any_axis();
        const auto before = evaluated_of(measured);
        std::reverse(measured.targets.begin(), measured.targets.end());
        for (auto* rows : {&measured.positive, &measured.negative})
            for (auto& row : *rows) std::reverse(row.begin(), row.end());
        const auto after = evaluated_of(measured);
        for (const auto& name : range_names) RC_ASSERT(value(after, name) == value(before, name));
    }));
}

TEST_CASE("parameters keep the order that their definitions give them") {
    CHECK(rc::check([] {
        const auto series = evaluated_of(any_axis());
        const auto of = [&](const char* name) { return value(series, name); };
        const double rounding = 1e-9;
        RC_ASSERT(of("A") + rounding >= std::max(of("A_positive"), of("A_negative")));
        RC_ASSERT(of("A") + rounding >= of("R"));
        RC_ASSERT(of("E") >= std::max(of("E_positive"), of("E_negative")));
        RC_ASSERT(of("E") >= of("M"));
        RC_ASSERT(of("E") >= of("B"));
        RC_ASSERT(of("R") >= std::max(of("R_positive"), of("R_negative")));
        RC_ASSERT(of("R") >= of("B"));
    }));
}

TEST_CASE("the levels of the setting targets give the parameter back") {
    CHECK(rc::check([] {
        const auto series = evaluated_of(any_axis());
        for (const auto* name : {"A", "A_positive", "A_negative", "E", "E_positive", "E_negative", "M"}) {
            const auto& set_by = evaluate::find_parameter(series, name)->set_by;
            RC_ASSERT((set_by.at(0).level - set_by.at(1).level).in(units::micrometre) == value(series, name));
        }
        RC_ASSERT(units::abs(evaluate::find_parameter(series, "B")->set_by.at(0).level).in(units::micrometre) ==
                  value(series, "B"));
    }));
}

TEST_CASE("one run each way supports E, M, B and B_mean and nothing that needs s") {
    CHECK(rc::check([] {
        auto measured = any_axis();
        measured.positive.resize(1);
        measured.negative.resize(1);
        const auto series = evaluated_of(measured);
        for (const auto* name : {"E", "E_positive", "E_negative", "M", "B", "B_mean"})
            RC_ASSERT(support::reason(series, name).empty());
        for (const auto* name : {"A", "A_positive", "A_negative", "R", "R_positive", "R_negative"})
            RC_ASSERT(!support::reason(series, name).empty());
    }));
}

TEST_CASE("the same readings in another unit give the same lengths") {
    CHECK(rc::check([] {
        const auto measured = any_axis();
        const auto in_um = evaluated_of(measured);
        const auto in_uin = changed(measured, [](double x) { return x / 0.0254; });
        const auto other = support::evaluated(
            support::series("EXX", measured.targets, in_uin.positive, in_uin.negative, units::microinch, units::position_inch));
        for (const auto& name : range_names) assert_close(value(other, name) * 0.0254, value(in_um, name));
    }));
}

TEST_CASE("means and standard deviations agree with Boost.Math on random readings of any size") {
    CHECK(rc::check([] {
        const auto readings =
            *rc::gen::suchThat(rc::gen::arbitrary<std::vector<int>>(), [](const auto& v) { return v.size() >= 2; });
        const double unit = *rc::gen::element(1e-6, 0.1, 1.0, 123.456);
        std::vector<double> values;
        Rows rows;
        for (const int reading : readings) {
            values.push_back(unit * reading);
            rows.push_back({unit * reading});
        }
        const auto target = support::evaluated(support::series("EXX", {0}, rows, {})).targets[0];
        const double mean = boost::math::statistics::mean(values),
                     s = std::sqrt(boost::math::statistics::sample_variance(values));
        const double size = std::abs(
            *std::max_element(values.begin(), values.end(), [](double a, double b) { return std::abs(a) < std::abs(b); }));
        RC_ASSERT(std::abs(target.one_way.positive.mean->in(units::micrometre)-mean) <=
                  1e-14 * size * static_cast<double>(values.size()));
        RC_ASSERT(std::abs(target.one_way.positive.s->in(units::micrometre)-s) <= 1e-12 * size);
    }));
}
