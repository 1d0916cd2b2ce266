#include "plot/figures/figures.hpp"

#include "layouts/layout.hpp"
#include "support/frame_checks.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;
using namespace wayfolio::plot;

namespace {

const layouts::Layout& layout() {
    static const layouts::Layout read = layouts::read_layout("report", "A4");
    return read;
}

Tools tools() { return {layout(), testing::shaper()}; }

report::RecordPlot record(std::vector<std::pair<double, std::optional<double>>> points) {
    report::RecordPlot plot;
    plot.first_day = "2026-05-11";
    plot.from = points.front().first;
    plot.to = points.back().first;
    plot.panels = {{.title = "Air / °C", .curves = {{.name = "", .points = std::move(points), .words = report::Text("20.0 to 21.0 °C")}}}};
    plot.lanes = {{490, 500, report::Approach::Positive, "1"}, {500, 510, report::Approach::Negative, "1"}};
    plot.sessions = {{490, 510, "as found"}};
    plot.alternative = "Air.";
    return plot;
}

RecordFigure drawn(const report::RecordPlot& plot) { return record_figure(tools(), plot, pt(66), pt(402), pt(100), CurveWords::None); }

std::vector<std::string> words_of(const frame::Group& figure) {
    std::vector<std::string> words;
    frame::walk(figure.items, [&](const frame::GlyphRun& run) { words.push_back(run.text); });
    return words;
}

/// Outlines stroked in a pen of the layout.
std::size_t strokes(const frame::Group& figure, layouts::PenRole pen) {
    std::size_t count = 0;
    frame::walk(figure.items, [&](const frame::Path& path) {
        count += path.stroke && path.stroke->width == layout().pen(pen).width && path.stroke->colour == layout().pen(pen).colour;
    });
    return count;
}

bool holds(const std::vector<std::string>& words, const std::string& wanted) { return std::ranges::find(words, wanted) != words.end(); }

}  // namespace

TEST_CASE("a record shows clock times, runs with their numbers, and the name of the session") {
    const auto words = words_of(drawn(record({{480, 20.0}, {500, 20.4}, {520, 21.0}})).drawn.group);
    CHECK(holds(words, "08:00"));
    CHECK(holds(words, "as found"));
    CHECK(std::ranges::count(words, "1") == 2);
    CHECK(holds(words, "Air / °C"));
}

TEST_CASE("a missing value breaks the curve in two") {
    CHECK(strokes(drawn(record({{480, 20.0}, {490, 20.2}, {500, std::nullopt}, {510, 20.4}, {520, 21.0}})).drawn.group,
                  layouts::PenRole::Record) == 2);
    CHECK(strokes(drawn(record({{480, 20.0}, {490, 20.2}, {510, 20.4}, {520, 21.0}})).drawn.group, layouts::PenRole::Record) == 1);
}

TEST_CASE("the words of a curve stand at its last level, higher values first") {
    auto plot = record({{480, 20.0}, {520, 20.2}});
    plot.panels[0].curves.push_back({.name = "b", .points = {{480, 21.0}, {520, 21.5}}, .words = report::Text("b")});
    const auto figure = drawn(plot);
    REQUIRE(figure.words.size() == 2);
    CHECK(figure.words[0].second.words() == "b");
    CHECK(figure.words[0].first < figure.words[1].first);
}

TEST_CASE("standing alone, a figure names its curves as they end from above, on as many lines as they need") {
    auto plot = record({{480, 20.0}, {520, 20.2}});
    auto& curves = plot.panels[0].curves;
    curves[0].words = report::Text("lowest sensor, with a name that takes a good part of the line, 20.0 to 20.2 °C");
    curves.push_back({.name = "b",
                      .points = {{480, 21.0}, {520, 21.5}},
                      .words = report::Text("highest sensor, with a name that takes a good part of the line, 21.0 to 21.5 °C")});
    const auto figure = record_figure(tools(), plot, pt(66), pt(402), pt(100), CurveWords::AtCurves);
    std::string all;
    for (const auto& words : words_of(figure.drawn.group)) all += words + " ";
    CHECK(all.find("from above: highest sensor") != std::string::npos);
    CHECK(all.find("highest sensor") < all.find("lowest sensor"));
    CHECK(figure.drawn.bottom > drawn(plot).drawn.bottom);
    const frame::Frame page{.width = pt(595.28), .height = pt(841.89), .label = "1", .items = {figure.drawn.group}};
    CHECK(testing::page_faults(page) == std::vector<std::string>{});
}

TEST_CASE("a dense record keeps its highest point") {
    std::vector<std::pair<double, std::optional<double>>> points;
    for (int i = 0; i <= 40000; ++i) points.emplace_back(480 + i * 0.001, i == 20001 ? 29.0 : 20.0 + 0.001 * (i % 7));
    const auto figure = drawn(record(std::move(points)));
    Paper highest = pt(1000);
    std::size_t steps = 0;
    frame::walk(figure.drawn.group.items, [&](const frame::Path& path) {
        if (path.steps.size() < 100) return;
        steps = path.steps.size();
        for (const auto& step : path.steps)
            if (const auto* line = std::get_if<frame::LineTo>(&step)) highest = std::min(highest, line->to.y);
    });
    CHECK(steps > 1000);
    CHECK(steps < 6000);
    // Ticks run from 20 to 30 over the panel's height: 29 stands a tenth below its top.
    const Paper top = figure.drawn.bottom - pt(16) - layout().size(layouts::SizeRole::RecordHeight);
    CHECK(highest == top + layout().size(layouts::SizeRole::RecordHeight) * 0.1);
}

TEST_CASE("a record of several days is marked by its days") {
    const auto words = words_of(drawn(record({{480, 20.0}, {480 + 20 * 1440, 21.0}})).drawn.group);
    CHECK(holds(words, "05-14"));
}

TEST_CASE("a decision is drawn with limit, value, guard band and zones, and no two of its words overlap") {
    for (const double value : {2.0, 9.0, 9.9, 10.1, 14.0}) {
        report::DecisionPicture picture{.low = 0,
                                        .high = 16,
                                        .value = value,
                                        .limit = 10,
                                        .U = 1.0,
                                        .value_words = report::Text("A = 9.9 µm"),
                                        .U_words = report::Text("U = 1.0"),
                                        .limit_words = report::Text("limit 10 µm"),
                                        .zones = {},
                                        .edges = {{9, "9.0"}, {11, "11.0"}},
                                        .width_words = report::Text("w = U"),
                                        .verdict = {},
                                        .margins = {},
                                        .alternative = "A rule."};
        picture.zones = {{0, 9, false, report::Standing::Inside, report::Text("inside")},
                         {9, 11, true, report::Standing::Undecided, report::Text("undecided")},
                         {11, 16, false, report::Standing::Outside, report::Text("outside")}};
        const auto figure = decision_figure(tools(), picture, pt(66), pt(402), pt(100));
        const auto words = words_of(figure.group);
        CHECK(holds(words, "A = 9.9 µm"));
        CHECK(holds(words, "outside"));
        frame::Frame page{.width = pt(595.28), .height = pt(841.89), .label = "1", .items = {figure.group}};
        INFO("value " << value);
        CHECK(testing::page_faults(page) == std::vector<std::string>{});
    }
}
