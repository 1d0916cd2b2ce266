#include "frame/bounds.hpp"
#include "frame/contrast.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::frame;
using units::point;

namespace {

Point at(double x, double y) { return {point(x), point(y)}; }

GlyphRun run_at(double x, double y) {
    GlyphRun run;
    run.origin = at(x, y);
    run.advance = point(40);
    run.ascent = point(9);
    run.descent = point(3);
    return run;
}

void check_box(const Rect& box, double left, double top, double width, double height) {
    CHECK(box.left.in(point) == Approx(left));
    CHECK(box.top.in(point) == Approx(top));
    CHECK(box.width.in(point) == Approx(width));
    CHECK(box.height.in(point) == Approx(height));
}

}  // namespace

TEST_CASE("a text covers its advance by ascent and descent") { check_box(bounds(run_at(10, 20)), 10, 11, 40, 12); }

TEST_CASE("a text that reads upwards covers the turned box") {
    GlyphRun run = run_at(10, 60);
    run.rotated = true;
    check_box(bounds(run), 1, 20, 12, 40);
}

TEST_CASE("a stroke widens a path by half its width") {
    const Path path{.steps = {MoveTo{at(0, 0)}, LineTo{at(10, 0)}},
                    .fill = {},
                    .stroke = Stroke{.colour = {}, .width = point(2), .dash = {}}};
    check_box(bounds(path).value(), -1, -1, 12, 2);
    CHECK_FALSE(bounds(Path{}).has_value());
}

TEST_CASE("a clip cuts what a group covers") {
    Group group;
    group.items = {run_at(10, 20), run_at(100, 20)};
    check_box(bounds(Item(group)).value(), 10, 11, 130, 12);
    group.clip = Rect{point(0), point(0), point(30), point(100)};
    check_box(bounds(Item(group)).value(), 10, 11, 20, 12);
}

TEST_CASE("contrast follows WCAG 2.1") {
    CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21));
    // WCAG 2.1 technique G18: #767676 on white is 4.54:1, the lightest grey of its kind to pass.
    CHECK(contrast({0x76, 0x76, 0x76}, {255, 255, 255}) == Approx(4.54).margin(0.005));
    CHECK(contrast({0x77, 0x77, 0x77}, {255, 255, 255}) < 4.5);
}
