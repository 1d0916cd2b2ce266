#include "frame/walk.hpp"
#include "plot/figures/figures.hpp"
#include "plot/marks/circle.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio;
using plot::pt;

namespace {

plot::marks::Dial dial() {
    return {.centre = {pt(100), pt(100)}, .radius = plot::Scale(-10, 10, pt(20), pt(60)), .unit = units::arcsecond};
}

double x_of(const frame::Point& point) { return point.x.in(units::point); }
double y_of(const frame::Point& point) { return point.y.in(units::point); }

report::DeviationPlot table_plot(const std::vector<double>& targets, const std::vector<double>& means) {
    report::DeviationPlot plot{.series_id = "polar-c",
                               .quantity = "Deviation",
                               .axis_name = "C",
                               .unit = units::arcsecond,
                               .position_unit = units::position_degree};
    for (std::size_t i = 0; i < targets.size(); ++i)
        plot.targets.push_back({.index = i,
                                .position = units::Position(targets[i], units::position_degree),
                                .written = targets[i],
                                .one_way = {.positive = {.mean = units::Deviation(units::arcsecond(means[i]))}}});
    plot.alternative = "Round the circle";
    return plot;
}

/// The points of the positive mean curve: the widest polyline in the positive pen.
std::vector<frame::Point> mean_path(const report::DeviationPlot& plot) {
    const layouts::Layout layout = layouts::read_layout("report", "A4");
    const auto drawn = plot::polar_figure({layout, testing::shaper()}, plot, {pt(66), pt(100), pt(336), pt(336)});
    std::vector<frame::Point> points;
    const layouts::Pen& pen = layout.pen(layouts::PenRole::PositiveMean);
    frame::walk(drawn.group.items, [&](const frame::Path& path) {
        if (!path.stroke || path.fill || !(path.stroke->width == pen.width) || !(path.stroke->colour == pen.colour)) return;
        for (const auto& step : path.steps) {
            if (const auto* move = std::get_if<frame::MoveTo>(&step)) points.push_back(move->to);
            if (const auto* line = std::get_if<frame::LineTo>(&step)) points.push_back(line->to);
        }
    });
    return points;
}

}  // namespace

TEST_CASE("0 degrees stand to the right and positive positions run counter-clockwise, outwards is positive") {
    const units::Deviation none(units::arcsecond(0)), ten(units::arcsecond(10));
    CHECK(x_of(dial().at(0, none)) == Approx(140));
    CHECK(y_of(dial().at(90, none)) == Approx(60));  // up the page
    CHECK(x_of(dial().at(180, none)) == Approx(60));
    CHECK(y_of(dial().at(270, ten)) == Approx(160));
    CHECK(x_of(dial().at(360, ten)) == Approx(x_of(dial().at(0, ten))));
}

TEST_CASE("between two places of one deviation the curve follows the ring, not the chord") {
    const units::Deviation five(units::arcsecond(5));
    for (const auto& point : plot::marks::dial_path(dial(), {{0, five}, {120, five}}))
        CHECK(std::hypot(x_of(point) - 100, y_of(point) - 100) == Approx(50));
}

TEST_CASE("targets once round the circle close it; those of a part of it leave it open") {
    const auto closed = mean_path(table_plot({0, 90, 180, 270}, {1, 2, 3, 2}));
    REQUIRE(closed.size() > 4);
    CHECK(x_of(closed.front()) == Approx(x_of(closed.back())));
    CHECK(y_of(closed.front()) == Approx(y_of(closed.back())));
    const auto open = mean_path(table_plot({0, 60, 120, 180}, {1, 2, 3, 2}));
    CHECK(x_of(open.back()) < x_of(open.front()));
}

TEST_CASE("a last target one turn after the first keeps its own value, so that a gap shows") {
    const auto path = mean_path(table_plot({0, 90, 180, 270, 360}, {0, 2, 3, 2, 4}));
    CHECK(y_of(path.front()) == Approx(y_of(path.back())));
    CHECK(x_of(path.back()) > x_of(path.front()) + 1);
}
