#include "plot/label_places.hpp"
#include "plot/shapes.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace wayfolio;
using namespace wayfolio::plot;

namespace {

std::vector<Point> square(double left, double top, double side) {
    return {{pt(left), pt(top)}, {pt(left + side), pt(top)}, {pt(left + side), pt(top + side)}, {pt(left), pt(top + side)}};
}

std::vector<Point> points_of(const frame::Path& path) {
    std::vector<Point> points;
    for (const auto& step : path.steps) {
        if (const auto* move = std::get_if<frame::MoveTo>(&step)) points.push_back(move->to);
        if (const auto* line = std::get_if<frame::LineTo>(&step)) points.push_back(line->to);
    }
    return points;
}

}  // namespace

TEST_CASE("hatch lines end on the outline and rise by 35 degrees or fall by 55") {
    for (const auto slope : {HatchSlope::Rising, HatchSlope::Falling}) {
        const auto points = points_of(hatch({}, square(10, 20, 30), pt(2.4), slope));
        REQUIRE(points.size() > 20);
        for (std::size_t i = 0; i < points.size(); i += 2) {
            const double dx = (points[i + 1].x - points[i].x).in(units::point), dy = (points[i + 1].y - points[i].y).in(units::point);
            CHECK(std::atan2(-dy, dx) * 180 / std::numbers::pi == Approx(slope == HatchSlope::Rising ? 35 : -55));
            CHECK(points[i].x >= pt(10 - 1e-9));
            CHECK(points[i + 1].x <= pt(40 + 1e-9));
        }
    }
}

TEST_CASE("a hatch leaves out what a hollow outline leaves out") {
    // A U: the gap between its arms stays free.
    const std::vector<Point> outline{{pt(0), pt(0)},  {pt(10), pt(0)}, {pt(10), pt(20)}, {pt(20), pt(20)},
                                     {pt(20), pt(0)}, {pt(30), pt(0)}, {pt(30), pt(30)}, {pt(0), pt(30)}};
    const auto points = points_of(hatch({}, outline, pt(2), HatchSlope::Falling));
    for (std::size_t i = 0; i + 1 < points.size(); i += 2) {
        const double x = ((points[i].x + points[i + 1].x) / 2).in(units::point), y = ((points[i].y + points[i + 1].y) / 2).in(units::point);
        CHECK_FALSE((x > 10 && x < 20 && y < 20));
    }
}

TEST_CASE("a label takes the first free place and keeps it") {
    LabelPlaces places({pt(0), pt(0), pt(100), pt(100)});
    const Rect here{pt(10), pt(10), pt(20), pt(8)}, there{pt(50), pt(10), pt(20), pt(8)};
    CHECK(places.place({here, there})->left == pt(10));
    CHECK(places.place({here, there})->left == pt(50));
    CHECK_FALSE(places.place({here, there}));
}

TEST_CASE("two labels do not follow each other closely, where there is another place") {
    const Rect first{pt(10), pt(10), pt(20), pt(8)}, close{pt(31), pt(10), pt(20), pt(8)}, far{pt(35), pt(10), pt(20), pt(8)};
    LabelPlaces places({pt(0), pt(0), pt(100), pt(100)}), narrow({pt(0), pt(0), pt(52), pt(100)});
    places.place({first});
    CHECK(places.place({close, far})->left == pt(35));
    narrow.place({first});
    CHECK(narrow.place({close, far})->left == pt(31));
}

TEST_CASE("a label never hangs over the edge of its plot") {
    LabelPlaces places({pt(0), pt(0), pt(100), pt(100)});
    CHECK_FALSE(places.place({{pt(95), pt(10), pt(20), pt(8)}}));
}
