#include "output/svg/svg_drawing.hpp"
#include "output/svg/svg_path.hpp"
#include "support/sample_pages.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace wayfolio;
using namespace wayfolio::output;
using namespace wayfolio::testing;

namespace {

constexpr frame::Colour red{200, 0, 0}, white{255, 255, 255};

frame::Path dot(double x, double y, frame::Colour colour, double width) {
    const frame::Point at{units::point(x), units::point(y)};
    return {.steps = {frame::MoveTo{at}, frame::LineTo{at}},
            .fill = {},
            .stroke = frame::Stroke{.colour = colour, .width = units::point(width), .cap = frame::Cap::Round}};
}

frame::Path square(double x, double y, frame::Colour colour) {
    const auto at = [&](double dx, double dy) { return frame::Point{units::point(x + dx), units::point(y + dy)}; };
    return {.steps = {frame::MoveTo{at(0, 0)}, frame::LineTo{at(10, 0)}, frame::LineTo{at(10, 10)}, frame::LineTo{at(0, 10)},
                      frame::ClosePath{}},
            .fill = colour,
            .stroke = {}};
}

/// The `d` of each path of the drawing, with its colour.
std::vector<std::string> paths_of(const std::vector<frame::Item>& items) {
    std::vector<std::string> found;
    const std::string drawing = svg_drawing(items, shaper(), "p");
    for (std::size_t at = drawing.find("<path d="); at != std::string::npos; at = drawing.find("<path d=", at + 1)) {
        const std::size_t begin = at + 9, end = drawing.find('"', begin), colour = drawing.find("=\"#", end) + 2;
        found.push_back(drawing.substr(begin, end - begin) + " " + drawing.substr(colour, 7));
    }
    return found;
}

}  // namespace

TEST_CASE("a path is written in steps on its grid, and their rounding does not add up") {
    SvgPath path(100);
    path.move_to(10, 20);
    path.line_to(10.004, 20);  // less than half a line of the grid
    path.line_to(10.008, 20);
    path.line_to(10.012, 20);
    path.line_to(10.012, 19.5);
    path.line_to(-3.25, 20.127);
    path.curve_to(0, 0, 1, 1, 2, 2.5);
    path.close();
    path.move_to(10, 21);  // from where the closed one began
    path.line_to(10.05, 21.5);
    path.move_to(1, 1);  // draws nothing
    CHECK(path.text() == "m10 20h0 .01 0v-.5l-13.26 .63c3.25-20.13 4.25-19.13 5.25-17.63zm0 1 .05 .5");
}

TEST_CASE("a path on whole numbers has none of their halves") {
    SvgPath path(1);
    path.move_to(0.4, -1.6);
    path.line_to(1000.5, 2);
    CHECK(path.text() == "m0-2 1001 4");
    CHECK(SvgPath(1000).empty());
}

TEST_CASE("markers in two pens by turns are two paths where they do not touch, and keep their order where they do") {
    CHECK(paths_of({dot(10, 10, red, 4), dot(10, 10, white, 2), dot(20, 10, red, 4), dot(20, 10, white, 2)}) ==
          std::vector<std::string>{"m10 10h0m10 0h0 #c80000", "m10 10h0m10 0h0 #ffffff"});
    CHECK(paths_of({dot(10, 10, red, 4), dot(10, 10, white, 2), dot(12, 10, red, 4), dot(12, 10, white, 2)}).size() == 4);
}

TEST_CASE("areas of one colour are one path only where none lies over another, for two could cut a hole") {
    CHECK(paths_of({square(0, 0, red), square(20, 0, red)}).size() == 1);
    CHECK(paths_of({square(0, 0, red), square(5, 5, red)}).size() == 2);
    CHECK(paths_of({square(0, 0, red), square(5, 0, white), square(20, 0, red)}).size() == 2);
    CHECK(paths_of({square(0, 0, red), square(5, 0, white), square(12, 0, red)}).size() == 3);
}
