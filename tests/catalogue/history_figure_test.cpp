#include "catalogue/history_figure.hpp"
#include "catalogue/index.hpp"
#include "frame/dump.hpp"
#include "support/frame_checks.hpp"
#include "support/frame_parts.hpp"
#include "support/golden.hpp"
#include "support/light_records.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using Catch::Matchers::Contains;
using support::TemporaryFolder;

namespace {

const layouts::Layout& figures_layout() {
    static const layouts::Layout read = layouts::read_layout("figures", "A4");
    return read;
}

catalogue::History drawn_from(const TemporaryFolder& folder, const std::string& parameter = "") {
    catalogue::update_index(folder.path(), catalogue::index_in(folder.path()));
    const auto database = catalogue::open_index(catalogue::index_in(folder.path()));
    return catalogue::history_of(database, catalogue::find_visits(database, {}), "", parameter);
}

/// The same program and libraries everywhere, so that the fingerprint in the foot is the same too.
catalogue::HistoryDrawing drawing(const catalogue::History& history) {
    return {history, figures_layout(), shaper(), {{"wayfolio", "test"}}};
}

/// E rises with a ripple, is adjusted in 2023 and rises again; U and a limit beside it.
void write_adjusted(const TemporaryFolder& folder) {
    const std::vector<std::pair<std::string, double>> found{{"2019-03-04", 5.1}, {"2020-03-09", 5.8}, {"2021-03-01", 7.2},
                                                            {"2022-03-14", 7.9}, {"2023-03-06", 9.0}, {"2024-03-11", 5.9},
                                                            {"2025-03-10", 7.8}};
    for (const auto& [day, value] : found)
        write_light_record(folder / ("found-" + day), {.job = "F-" + day, .day = day, .accuracy_um = value});
    write_light_record(folder / "left", {.job = "L", .day = "2023-03-06", .state = "as-left", .accuracy_um = 4.1});
}

std::string words_in(const frame::Frame& frame) { return words_of(frame.items); }

}  // namespace

TEST_CASE("the figure of an adjusted machine is drawn as it was") {
    const TemporaryFolder folder;
    write_adjusted(folder);
    const auto history = drawn_from(folder, "E");
    check_golden("catalogue/adjusted-history.txt", frame::dump(catalogue::history_frame(drawing(history))));
}

TEST_CASE("a history's page has no text over another or off the page, and its figures are described", "[slow]") {
    const TemporaryFolder folder;
    std::string parameter;
    SECTION("one parameter, adjusted") { write_adjusted(folder); parameter = "E"; }
    SECTION("one visit") { write_light_record(folder / "a", {}); }
    SECTION("a limit far off") { write_light_record(folder / "a", {.accuracy_um = 4, .limit_um = 400}); }
    SECTION("a limit that is broken") { write_light_record(folder / "a", {.accuracy_um = 14}); }
    SECTION("quarters") {
        for (int i = 0; i < 4; ++i)
            write_light_record(folder / std::to_string(i),
                               {.job = std::to_string(i), .day = "2024-0" + std::to_string(1 + 2 * i) + "-05", .accuracy_um = 4 + 0.5 * i});
    }
    SECTION("half a century") {
        for (int i = 0; i < 50; ++i)
            write_light_record(folder / std::to_string(i),
                               {.job = std::to_string(i), .day = std::to_string(1975 + i) + "-02-05", .accuracy_um = 4 + 0.1 * i});
    }
    const auto history = drawn_from(folder, parameter);
    const frame::Frame frame = catalogue::history_frame(drawing(history));
    CHECK(page_faults(frame) == Findings{});
    CHECK_THAT(words_in(frame), Contains("Invented data for demonstration") && Contains("fingerprint"));
    const auto pages = catalogue::history_pages(drawing(history));
    REQUIRE(pages.size() == 1);
    CHECK(page_faults(pages[0]) == Findings{});
    CHECK(pages[0].width == figures_layout().grid().width);
    CHECK_THAT(words_in(pages[0]), Contains("Page 1 of 1") && Contains("Invented data for demonstration") && Contains("fingerprint"));
}

TEST_CASE("a limit that the scale does not reach is told in words") {
    const TemporaryFolder folder;
    write_light_record(folder / "a", {.accuracy_um = 4, .limit_um = 400});
    const auto history = drawn_from(folder);
    CHECK_THAT(words_in(catalogue::history_frame(drawing(history))), Contains("above the scale"));
}

TEST_CASE("twelve parameters are drawn, those without a limit where none has one, and the others are named") {
    const TemporaryFolder folder;
    write_light_record(folder / "x", {.job = "X"});
    write_light_record(folder / "y", {.job = "Y", .axis = "Y"});
    auto history = drawn_from(folder);
    CHECK(catalogue::drawn_lines(history).size() == 2);
    for (auto& line : history.lines)
        for (auto& point : line.points) point.limit.reset();
    CHECK(catalogue::drawn_lines(history).size() == catalogue::most_panels);
    CHECK_FALSE(catalogue::lines_without_room(history).empty());
    CHECK(page_faults(catalogue::history_frame(drawing(history))) == Findings{});
    // On paper six stand on a page.
    const auto pages = catalogue::history_pages(drawing(history));
    REQUIRE(pages.size() == 2);
    for (const frame::Frame& page : pages) {
        CHECK(page_faults(page) == Findings{});
        CHECK(groups_where(page.items, [](const frame::Group& group) { return group.role == frame::Role::Figure; }).size() == 6);
    }
}

TEST_CASE("a slope is told with its own U, what does not exceed it as none, and nothing is told of years to come") {
    const TemporaryFolder folder;
    write_adjusted(folder);
    const std::string words = words_in(catalogue::history_frame(drawing(drawn_from(folder, "E"))));
    // Least squares of 4.1, 5.9 and 7.8 over 2023-03-06, 2024-03-11 and 2025-03-10; one degree of freedom: t = 12.7.
    CHECK_THAT(words, Contains("Grew by 1.84\u00a0±\u202f0.49\u202fµm a year, 2023-03 to 2025-03"));
    CHECK_THAT(words, !Contains("if the trend continues") && !Contains("reaches the limit"));
    const TemporaryFolder flat;
    const std::vector<double> values{5, 5.4, 4.9, 5.2};
    for (std::size_t i = 0; i < values.size(); ++i)
        write_light_record(flat / std::to_string(i),
                           {.job = std::to_string(i), .day = std::to_string(2020 + i) + "-02-05", .accuracy_um = values[i]});
    CHECK_THAT(words_in(catalogue::history_frame(drawing(drawn_from(flat, "E")))), Contains("No slope beyond its"));
}

TEST_CASE("the fingerprint of a history follows its values") {
    const TemporaryFolder folder;
    write_light_record(folder / "a", {});
    auto history = drawn_from(folder);
    const std::string before = catalogue::history_bytes(drawing(history), produce::FigureFormat::Svg);
    CHECK(before == catalogue::history_bytes(drawing(history), produce::FigureFormat::Svg));
    history.lines[0].points[0].value = 4.5;
    CHECK(before != catalogue::history_bytes(drawing(history), produce::FigureFormat::Svg));
}
