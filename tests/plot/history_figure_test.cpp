#include "plot/figures/history_figure.hpp"

#include "frame/dump.hpp"
#include "support/drawn_plot.hpp"
#include "support/golden.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <chrono>

namespace wayfolio::testing {
using plot::pt;

namespace {

double day(int year, unsigned month, unsigned of_month) {
    return static_cast<double>(
        std::chrono::sys_days{std::chrono::year{year} / static_cast<int>(month) / static_cast<int>(of_month)}
            .time_since_epoch()
            .count());
}

report::HistoryPlot history() {
    using report::HistoryMark, report::Standing;
    report::HistoryPanel panel{.id = "x-A",
                               .title = report::Text("EXX, A / µm"),
                               .words = report::Text("rises"),
                               .from_zero = true,
                               .values = {},
                               .limits = {},
                               .limit_label = report::Text("limit 10 µm"),
                               .trend = {},
                               .alternative = "A over five years."};
    panel.values = {{day(2020, 3, 9), 5.8, 0.9, HistoryMark::Found, Standing::Inside},
                    {day(2021, 3, 1), 7.2, 0.8, HistoryMark::Found, Standing::NoLimit},
                    {day(2022, 7, 14), 8.9, std::nullopt, HistoryMark::Apart, Standing::Inside},
                    {day(2023, 3, 6), 9.0, 1.1, HistoryMark::Found, Standing::Outside},
                    {day(2023, 3, 6), 4.1, 0.7, HistoryMark::Left, Standing::Inside}};
    panel.limits = {{day(2020, 3, 9), day(2021, 3, 1), 12}, {day(2021, 3, 1), day(2025, 1, 1), 10, 0.7}};
    panel.trend = report::HistoryTrend{
        .from = day(2020, 3, 9), .to = day(2023, 3, 6), .at_from = 5.9, .at_to = 9.1};
    return {.from = day(2020, 1, 1), .to = day(2025, 1, 1), .panels = {panel}};
}

struct ReadHistory {
    layouts::Layout layout = layouts::read_layout("report", "A4");
    plot::HistoryFigure drawn = plot::history_figure({layout, shaper()}, history(), pt(66), pt(402), pt(100));
    const frame::Group& figure = group_of(drawn.items, "x-A");
    ReadScale time = years(), y = values();

    /// Each year's tick stands on its first of January; the number is centred under it.
    [[nodiscard]] ReadScale years() const {
        std::vector<std::pair<double, double>> known;
        std::optional<double> tick;
        for (const frame::Item& item : group_of(figure.items, "x-axis").items) {
            if (const auto* path = std::get_if<frame::Path>(&item)) tick = x_of(points_of(*path)[0]);
            if (const auto* run = std::get_if<frame::GlyphRun>(&item))
                known.emplace_back(tick.value(), day(std::stoi(run->text), 1, 1));
        }
        return {known.at(0).first, known[0].second, known.back().first, known.back().second};
    }
    [[nodiscard]] ReadScale values() const {
        for (const frame::Item& item : figure.items)
            if (const auto* group = std::get_if<frame::Group>(&item); group && group->id.empty())
                return scale_of(*group, Along::Y);
        throw std::runtime_error("no numbers beside the values");
    }
};

}  // namespace

TEST_CASE("a history's values stand at their dates and levels with the symbols of their verdicts, as left beside, apart crossed",
          "[pictures]") {
    const ReadHistory read;
    const report::HistoryPanel panel = history().panels[0];
    std::vector<frame::Path> bars, marks;
    for (const frame::Path& path : paths_in(group_of(read.figure.items, "values").items))
        (has_pen(path, pen_called(read.layout, "uncertainty_bar")) ? bars : marks).push_back(path);
    REQUIRE(bars.size() == 4);
    REQUIRE(marks.size() == 8);  // a cross is two strokes, the arrow a stroke and its head
    const auto centre = [&](const frame::Path& path) {
        const frame::Rect box = *frame::bounds(path);
        return frame::Point{box.left + box.width / 2, box.top + box.height / 2};
    };
    const std::vector<std::size_t> mark_of{0, 1, 2, 4, 5};
    constexpr double beside = 4.5;
    for (std::size_t i = 0, bar = 0; i < panel.values.size(); ++i) {
        CAPTURE(i);
        const report::HistoryValue& value = panel.values[i];
        const frame::Path& mark = marks[mark_of[i]];
        const bool apart = value.mark == report::HistoryMark::Apart;
        const double aside = value.mark == report::HistoryMark::Left ? beside : 0;
        CHECK(read.time.at(x_of(centre(mark)) - aside) == Approx(value.day).margin(1e-3));
        CHECK(read.y.at(y_of(centre(mark))) == Approx(value.value).margin(hairline));
        CHECK(is_disc(mark) == (value.standing == report::Standing::Outside));
        CHECK((mark.fill == colour_called(read.layout, "paper")) == (value.standing == report::Standing::Inside && !apart));
        const bool undecided = value.standing == report::Standing::NoLimit;
        const auto corners = points_of(mark);
        const bool level = corners.size() == 2 && corners[0].y == corners[1].y && corners[0].x != corners[1].x;
        CHECK((has_pen(mark, pen_called(read.layout, "excluded")) && !level) == apart);
        CHECK((has_pen(mark, pen_called(read.layout, "symbol_limit")) && level) == undecided);
        if (!value.expanded) continue;
        const auto ends = points_of(bars[bar++]);
        CHECK(x_of(ends[0]) == Approx(x_of(centre(mark))));
        CHECK(read.y.at(y_of(ends[0])) == Approx(value.value - *value.expanded).margin(hairline));
        CHECK(read.y.at(y_of(ends[1])) == Approx(value.value + *value.expanded).margin(hairline));
    }
    // The tip of the arrow is its first corner, the nearest to the value as left.
    const frame::Point found = centre(marks[4]), left = centre(marks[5]), tip = points_of(marks[7])[0];
    CHECK(std::hypot(x_of(tip) - x_of(left), y_of(tip) - y_of(left)) < 4);
    CHECK((y_of(tip) - y_of(found)) * (y_of(left) - y_of(tip)) > 0);
    CHECK((x_of(tip) - x_of(found)) * (y_of(left) - y_of(found)) ==
          Approx((y_of(tip) - y_of(found)) * (x_of(left) - x_of(found))).margin(hairline));
}

TEST_CASE("a history's limits stand while they were in force, U about them, and the slope through its ends and no farther",
          "[pictures]") {
    const ReadHistory read;
    const report::HistoryPanel panel = history().panels[0];
    const auto limits = paths_in(group_of(read.figure.items, "limits").items);
    REQUIRE(limits.size() == panel.limits.size());
    for (std::size_t i = 0; i < limits.size(); ++i) {
        const auto ends = points_of(limits[i]);
        CHECK(read.time.at(x_of(ends[0])) == Approx(panel.limits[i].from).margin(1e-3));
        CHECK(read.time.at(x_of(ends[1])) == Approx(panel.limits[i].to).margin(1e-3));
        for (const frame::Point& end : ends) CHECK(read.y.at(y_of(end)) == Approx(panel.limits[i].value).margin(hairline));
    }
    const auto trend = paths_in(group_of(read.figure.items, "trend").items);
    REQUIRE(trend.size() == 1);
    const auto check_ends = [&](const frame::Path& path, double from, double at_from, double to, double at_to) {
        const auto ends = points_of(path);
        CHECK(read.time.at(x_of(ends[0])) == Approx(from).margin(1e-3));
        CHECK(read.y.at(y_of(ends[0])) == Approx(at_from).margin(hairline));
        CHECK(read.time.at(x_of(ends[1])) == Approx(to).margin(1e-3));
        CHECK(read.y.at(y_of(ends[1])) == Approx(at_to).margin(hairline));
    };
    check_ends(trend[0], panel.trend->from, panel.trend->at_from, panel.trend->to, panel.trend->at_to);
    CHECK(trend[0].stroke->dash.size() == 4);
    const auto guards = paths_in(group_of(read.figure.items, "guards").items);
    REQUIRE(guards.size() == 1);  // the limit before it had no value with U
    const frame::Rect box = *frame::bounds(guards[0]);
    CHECK(read.y.at(y_of({{}, box.top})) == Approx(10.7).margin(0.1));
    CHECK(read.y.at(y_of({{}, box.bottom()})) == Approx(9.3).margin(0.1));
    CHECK(paths_in(group_of(read.figure.items, "adjustments").items).size() == 1);
}

TEST_CASE("a history with every kind of mark, a broken limit and a trend is drawn as it was", "[pictures]") {
    const ReadHistory read;
    check_golden("figures/history.txt",
                 frame::dump({.width = pt(595.28), .height = pt(841.89), .label = "", .items = read.drawn.items}));
}

}  // namespace wayfolio::testing
