#include "catalogue/history.hpp"
#include "catalogue/history_words.hpp"
#include "catalogue/index.hpp"
#include "support/light_records.hpp"
#include "support/run.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using catalogue::History;
using catalogue::HistoryWarning;
using Catch::Matchers::Contains;
using support::TemporaryFolder;

namespace {

History history_in(const TemporaryFolder& folder, const std::string& parameter = "E") {
    catalogue::update_index(folder.path(), catalogue::index_in(folder.path()));
    const auto database = catalogue::open_index(catalogue::index_in(folder.path()));
    return catalogue::history_of(database, catalogue::find_visits(database, {.serial = "S-1"}), "", parameter);
}

/// One visit each year from 2020 on with these values.
void write_years(const TemporaryFolder& folder, const std::vector<double>& values, LightRecord like = {}) {
    for (std::size_t i = 0; i < values.size(); ++i) {
        like.job = "Y-" + std::to_string(i);
        like.day = std::to_string(2020 + i) + "-01-10";
        like.accuracy_um = values[i];
        write_light_record(folder / like.job, like);
    }
}

const catalogue::Drift& drift_of(const History& history) {
    REQUIRE(history.lines.size() == 1);
    const auto* drift = evaluate::value_of(history.lines.front().drift);
    REQUIRE(drift);
    return *drift;
}

std::string why_no_trend(const History& history) {
    REQUIRE(history.lines.size() == 1);
    REQUIRE_FALSE(evaluate::value_of(history.lines.front().drift));
    return std::get<evaluate::NotEvaluated>(history.lines.front().drift).reason;
}

std::vector<HistoryWarning::Kind> kinds(const History& history) {
    std::vector<HistoryWarning::Kind> all;
    for (const auto& warning : history.lines.front().warnings) all.push_back(warning.kind);
    return all;
}

std::string notes(const History& history) {
    std::string all;
    for (const auto& note : history.lines.front().notes) all += note + "\n";
    return all;
}

using Kinds = std::vector<HistoryWarning::Kind>;

}  // namespace

TEST_CASE("the trend of Anscombe's first set through records has his slope, its error and p") {
    // Anscombe, The American Statistician 27 (1973) 17: slope 0.500, se 0.118, t 4.24; further digits as in tests/evaluate/trend_test.cpp.
    // His x are 4 to 14; one step is four years, and four years are 1461 days exactly.
    const std::vector<double> y{4.26, 5.68, 7.24, 4.82, 6.95, 8.81, 8.04, 8.33, 10.84, 7.58, 9.96};
    const TemporaryFolder folder;
    for (std::size_t i = 0; i < y.size(); ++i)
        write_light_record(
            folder / std::to_string(i),
            {.job = "K-" + std::to_string(i), .day = std::to_string(2000 + 4 * i) + "-01-01", .accuracy_um = y[i], .limit_um = 50});
    const History history = history_in(folder);
    const auto& drift = drift_of(history);
    CHECK(drift.fit.slope == Approx(0.5000909091 / 4).epsilon(1e-9));
    CHECK(drift.fit.slope_standard == Approx(0.1179055006 / 4).epsilon(1e-9));
    CHECK(drift.fit.intercept == Approx(3.000090909 + 4 * 0.5000909091).epsilon(1e-9));
    CHECK(*drift.fit.p == Approx(0.002169628873).epsilon(1e-8));
    CHECK(drift.significant);
    CHECK(drift.horizon == 5.0);
}

TEST_CASE("a parameter that grows towards its limit is warned of, with the month") {
    // A line without scatter: 0.5 a year from 6.0 in January 2020 to 8.0 in January 2024; with U 0.8 it is at 9.5 after 1.4 years, without
    // after 3.
    const TemporaryFolder folder;
    write_years(folder, {6, 6.5, 7, 7.5, 8}, {.limit_um = 9.5});
    const History history = history_in(folder);
    CHECK(kinds(history) == Kinds{HistoryWarning::Kind::TowardsLimit});
    CHECK_THAT(history.lines[0].warnings[0].text,
               Contains("the line with U reaches the limit") && Contains("about 2025-06 if the trend continues"));
    CHECK(drift_of(history).reached.value() == Approx(1.4).epsilon(0.01));
    CHECK(drift_of(history).value_reached.value() == Approx(3.0).epsilon(0.01));
}

TEST_CASE("a limit beyond the horizon, or in the other direction, is no warning") {
    const TemporaryFolder folder;
    SECTION("too far ahead") { write_years(folder, {6, 6.1, 6.2, 6.3}); }
    SECTION("it falls") { write_years(folder, {8, 7.5, 7, 6.5}); }
    SECTION("no slope can be told from the scatter") { write_years(folder, {6, 8, 5, 7}); }
    SECTION("always the same") { write_years(folder, {6, 6, 6, 6}); }
    const History history = history_in(folder);
    CHECK(history.lines.at(0).warnings.empty());
    CHECK_FALSE(drift_of(history).reached);
}

TEST_CASE("the latest value at its limit with U, or beyond it, is warned of without any trend") {
    const TemporaryFolder folder;
    const auto [value, kind] = GENERATE(
        table<double, HistoryWarning::Kind>({{9.5, HistoryWarning::Kind::AtLimitWithU}, {10.5, HistoryWarning::Kind::BeyondLimit}}));
    write_years(folder, {value});
    const History history = history_in(folder);
    CHECK(kinds(history) == Kinds{kind});
    CHECK(why_no_trend(history) == "1 value as found; a trend needs 3");
}

TEST_CASE("two values have no trend, nor have values of one day") {
    const TemporaryFolder folder;
    SECTION("two") {
        write_years(folder, {4, 5});
        CHECK(why_no_trend(history_in(folder)) == "2 values as found; a trend needs 3");
    }
    SECTION("one day") {
        for (const char* job : {"a", "b", "c"}) write_light_record(folder / job, {.job = job});
        CHECK(why_no_trend(history_in(folder)) == "all values are from one day");
    }
}

TEST_CASE("a job counts once: by its latest revision, and a copy not again") {
    const TemporaryFolder folder;
    write_years(folder, {4, 5, 6});
    write_light_record(folder / "Y-1", {.job = "Y-1",
                                        .day = "2021-01-10",
                                        .accuracy_um = 5.5,
                                        .revision = 1,
                                        .replaces = R"("revision": 0, "reason": "a sensor was read wrongly")"});
    std::filesystem::copy(folder / "Y-2", folder / "safety copy", std::filesystem::copy_options::recursive);
    const History history = history_in(folder);
    CHECK(history.visits == 3);
    REQUIRE(history.left_out.size() == 2);
    CHECK_THAT(history.left_out[0], Contains("Y-1, revision 0") && Contains("replaced by a later revision"));
    CHECK_THAT(history.left_out[1], Contains("safety copy") && Contains("another record holds the same job"));
    CHECK(history.lines[0].points[1].value == 5.5);
    CHECK(drift_of(history).points.size() == 3);
}

TEST_CASE("an adjustment begins a new trend, with the value as left, where enough visits followed") {
    const TemporaryFolder folder;
    write_years(folder, {6, 7, 8});
    write_light_record(folder / "left", {.job = "L", .day = "2022-01-10", .state = "as-left", .accuracy_um = 2});
    write_light_record(folder / "after", {.job = "A", .day = "2023-01-10", .accuracy_um = 3});
    SECTION("one visit since: the values before it, and the adjustment is named") {
        const History history = history_in(folder);
        CHECK_FALSE(drift_of(history).since_adjustment);
        CHECK(drift_of(history).points == std::vector<std::size_t>{0, 1, 2});
        CHECK_THAT(notes(history), Contains("adjusted on 2022-01-10, after the last value of the trend"));
    }
    SECTION("two visits since: from the value as left") {
        write_light_record(folder / "later", {.job = "B", .day = "2024-01-10", .accuracy_um = 4});
        const History history = history_in(folder);
        CHECK(drift_of(history).since_adjustment);
        CHECK(drift_of(history).points == std::vector<std::size_t>{3, 4, 5});
        CHECK(drift_of(history).fit.slope == Approx(1).epsilon(0.01));
        CHECK_THAT(catalogue::history_text(history), Contains("since it was adjusted on 2022-01-10"));
    }
}

TEST_CASE("after a later adjustment no date is told") {
    const TemporaryFolder folder;
    write_years(folder, {6, 6.5, 7, 7.5, 8});
    write_light_record(folder / "left", {.job = "L", .day = "2024-01-10", .state = "as-left", .accuracy_um = 2});
    const History history = history_in(folder);
    CHECK(drift_of(history).significant);
    CHECK_FALSE(drift_of(history).reached);
    CHECK(history.lines[0].warnings.empty());
    CHECK_THAT(notes(history), Contains("adjusted on 2024-01-10, after the last value"));
}

TEST_CASE("where no visit says what it found, the values as left have the trend") {
    const TemporaryFolder folder;
    write_years(folder, {6, 6.5, 7, 7.5, 8}, {.state = "as-left"});
    CHECK(kinds(history_in(folder)) == Kinds{HistoryWarning::Kind::TowardsLimit});
}

TEST_CASE("a changed limit is said and the latest holds; U that hides the change is said") {
    const TemporaryFolder folder;
    write_years(folder, {4, 4.1, 4.2});
    write_light_record(folder / "tight", {.job = "T", .day = "2023-01-10", .accuracy_um = 4.3, .limit_um = 5});
    const History history = history_in(folder);
    CHECK(history.lines[0].limit() == 5.0);
    CHECK_THAT(notes(history),
               Contains("the limit changed") && Contains("from 2023-01-10") && Contains("the change over these visits is smaller than U"));
    CHECK(kinds(history) == Kinds{HistoryWarning::Kind::AtLimitWithU});
}

TEST_CASE("a value over other travel stands apart from the trend, with the reason") {
    const TemporaryFolder folder;
    write_years(folder, {4, 5, 6});
    write_light_record(folder / "short", {.job = "S", .day = "2019-01-10", .accuracy_um = 9, .travel_mm = 300});
    const History history = history_in(folder);
    CHECK_THAT(history.lines.at(0).points[0].apart, Contains("measured over 0 to 300 mm, the latest over 0 to 500 mm"));
    CHECK(drift_of(history).points == std::vector<std::size_t>{1, 2, 3});
}

TEST_CASE("what was not evaluated keeps its place, with the reason") {
    const TemporaryFolder folder;
    write_years(folder, {4, 5, 6});
    write_light_record(folder / "once", {.job = "O", .day = "2023-01-10", .accuracy_um = 7, .one_run_each = true});
    const History history = history_in(folder, "A");
    REQUIRE(history.lines.size() == 1);
    CHECK_FALSE(history.lines[0].points.back().value);
    CHECK(drift_of(history).points.size() == 3);
    CHECK_THAT(catalogue::history_text(history), Contains("not evaluated: "));
}

TEST_CASE("the JSON holds every parameter, value and record; the text those with a limit, and names the others") {
    const TemporaryFolder folder;
    write_years(folder, {6, 6.5, 7, 7.5, 8});
    const History history = history_in(folder, "");
    const auto json = nlohmann::json::parse(catalogue::history_json(history));
    CHECK(json["format"] == "wayfolio-history");
    CHECK(json["lines"].size() > 3);
    const auto E = std::ranges::find_if(json["lines"], [](const auto& line) { return line["parameter"] == "E"; });
    REQUIRE(E != json["lines"].end());
    CHECK((*E)["points"][2]["value"] == 7.0);
    CHECK((*E)["points"][2]["expanded"] == 0.8);
    CHECK((*E)["points"][2]["outcome"] == "pass");
    CHECK((*E)["points"][2]["record"] == "Y-2/revision-0");
    CHECK((*E)["trend"]["limit_reached_with_U"] == "2026-06");
    CHECK((*E)["warnings"][0]["kind"] == "towards_limit");
    const std::string text = catalogue::history_text(history);
    CHECK_THAT(text, Contains("Positioning EXX, E, in \u00b5m") && Contains("Warning: the line with U reaches the limit") &&
                         Contains("Invented data for demonstration"));
    CHECK_THAT(text, !Contains("Positioning EXX, A, in") && Contains("Without a limit") && Contains("EXX A"));
}

TEST_CASE("a history calls an angle pitch or yaw where the visits say which axis is vertical") {
    catalogue::HistoryLine line;
    line.error = "EBX";
    line.parameter = "angle";
    CHECK(catalogue::line_name(line) == "Rotation about Y EBX");
    line.vertical = "Z";
    CHECK(catalogue::line_name(line) == "Pitch EBX");
    line.vertical = "Y";
    CHECK(catalogue::line_name(line) == "Yaw EBX");
}
