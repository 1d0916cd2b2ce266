#include "report/blocks/tables/tables.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using support::says;

namespace {

document::Document two_straightness() {
    document::Document document =
        support::document(support::series("EYX", {0, 500, 1000}, {{0, 3, 1}, {0, 3.2, 1}}, {{0, 2, 1}, {0, 2.2, 1}}));
    document::Series second = support::series("EZX", {0, 500, 1000}, {{0, 30, 1}, {0, 32, 1}}, {{0, 20, 1}, {0, 22, 1}});
    second.id = "z";
    document.series.push_back(second);
    return document;
}

std::optional<report::PlainTable> joint_of(document::Document document) {
    const support::Reported reported{.document = std::move(document)};
    const report::Subject subject = reported.subject();
    return report::joint_straightness(subject, subject.views);
}

std::string row_of(const report::PlainTable& table, const std::string& name) {
    std::string words;
    for (const auto& row : table.rows)
        if (row.front().words() == name)
            for (const auto& cell : row) words += cell.words() + "|";
    return words;
}

document::Tolerance limit_of(double um, const std::string& parameter, std::optional<double> length_mm = {}) {
    return {.parameter = parameter,
            .source = "order",
            .limit = units::Deviation(units::micrometre(um)),
            .unit = units::micrometre,
            .length_mm = length_mm};
}

}  // namespace

TEST_CASE("two straightness series stand row by row, each value with its own U, limit and verdict") {
    document::Document document = two_straightness();
    document.series[1].tolerances = {limit_of(25, "straightness")};
    document.uncertainty.stated.push_back({.series = "z",
                                           .parameter = "straightness",
                                           .expanded = units::Deviation(units::micrometre(1.5)),
                                           .unit = units::micrometre,
                                           .coverage_factor = 2});
    const auto table = joint_of(document);
    REQUIRE(table);
    // Only Z has a U and a limit: nothing of it stands on the side of Y.
    const auto* both = "Straightness error, both approaches";
    const std::string row = row_of(*table, both);
    INFO(row);
    // By hand: the means 0, 2.6 and 1 have the line 0.7, 1.2, 1.7; about it all readings' means run from -0.7 to 3.1 - 1.2.
    CHECK(says(row, std::string(both) + "|2.6||||"));
    CHECK(says(row, "|±\u202f1.5|25|Outside|"));
    CHECK(row_of(*table, "by the least-squares line").empty());  // it is the one that the value is by
    CHECK_FALSE(row_of(*table, "by the minimum zone").empty());
}

TEST_CASE("a row that only one of two series has leaves a dash for the other") {
    document::Document document = two_straightness();
    document.series[0].tolerances = {limit_of(3, "local", 500)};
    for (auto& run : document.series[1].runs)
        for (auto& reading : run.deviations) reading.reset();
    const auto table = joint_of(document);
    REQUIRE(table);
    CHECK(says(row_of(*table, "Straightness error, both approaches"), "|\u2013||||"));
    CHECK(says(row_of(*table, "largest over any 500\u202fmm"), "|3|"));
}

TEST_CASE("one straightness, angles, and what is shown in two units have no joint table") {
    document::Document one = two_straightness();
    one.series.pop_back();
    CHECK_FALSE(joint_of(one));
    document::Document angle = two_straightness();
    angle.series[1] = support::series("EBX", {0, 500, 1000}, {{0, 3, 1}}, {{0, 2, 1}});
    angle.series[1].id = "b";
    CHECK_FALSE(joint_of(angle));
}
