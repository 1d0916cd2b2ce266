#include "frame/dump.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::frame;
using units::point;

namespace {

Point spot(double x, double y) { return {point(x), point(y)}; }

Frame page_of(std::vector<Item> items) { return {point(100), point(50.004), "3", std::move(items)}; }

}  // namespace

TEST_CASE("a dump names the page and its items, one a line, in drawing order") {
    Group cell;
    cell.role = Role::HeadCell;
    cell.scope = Scope::Column;
    cell.column_span = 2;
    GlyphRun run;
    run.size = point(9);
    run.text = "a \"b\"";
    run.origin = spot(10.126, 20);
    run.advance = point(31.004);
    cell.items.emplace_back(run);
    const Frame page =
        page_of({cell, Link{{point(1), point(2), point(3), point(4)}, "second", "", "Go"}, Bookmark{1, "Start", Point{}}});
    CHECK(dump(page) ==
          "page 100x50 label 3\n"
          "  head-cell scope column columns 2\n"
          "    text 10.13,20 face 0 size 9 #000000 width 31 \"a \\\"b\\\"\"\n"
          "  link 1,2 3x4 to second \"Go\"\n"
          "  bookmark 1 0,0 \"Start\"\n");
}

TEST_CASE("a dump shows how a path is drawn") {
    const Path path{.steps = {MoveTo{Point{}}, LineTo{spot(10, -0.001)}, CurveTo{spot(1, 2), spot(3, 4), spot(5, 6)}, ClosePath{}},
                    .fill = Colour{1, 2, 255},
                    .stroke = Stroke{.colour = {}, .width = point(0.25), .dash = {point(3.2), point(1.8)}, .cap = Cap::Round}};
    CHECK(dump(page_of({path})) ==
          "page 100x50 label 3\n"
          "  path fill #0102FF stroke 0.25 #000000 dash 3.2,1.8 round-cap M 0,0 L 10,0 C 1,2 3,4 5,6 Z\n");
}
