#include "support/frame_checks.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::testing;
using frame::Role;
using units::point;

namespace {

frame::GlyphRun text_at(double x, double y, const std::string& text = "ab") {
    return {.face = {},
            .colour = {},
            .size = point(9),
            .text = text,
            .glyphs = {{1, point(x), point(y)}, {2, point(x), point(y)}},
            .clusters = {{1, 1}, {1, 1}},
            .origin = {point(x), point(y)},
            .advance = point(10),
            .ascent = point(8),
            .descent = point(2)};
}

frame::Frame page_with(std::vector<frame::Item> items) { return {point(100), point(100), "1", std::move(items)}; }

}  // namespace

TEST_CASE("a clean page has no findings") { CHECK(page_faults(page_with({text_at(10, 20), text_at(10, 32)})).empty()); }

TEST_CASE("a text over the edge is found, a clipped path is not") {
    CHECK(items_off_the_page(page_with({text_at(95, 20)})).size() == 1);
    frame::Group clipped;
    clipped.clip = frame::Rect{point(0), point(0), point(50), point(50)};
    clipped.items = {frame::Path{
        .steps = {frame::MoveTo{{point(-20), point(0)}}, frame::LineTo{{point(20), point(0)}}}, .fill = {}, .stroke = {}}};
    CHECK(items_off_the_page(page_with({clipped})).empty());
    CHECK(items_off_the_page(page_with({clipped.items[0]})).size() == 1);
}

TEST_CASE("texts on top of each other are found, neighbours and blanks are not") {
    CHECK(overlapping_texts(page_with({text_at(10, 20), text_at(15, 22)})).size() == 1);
    CHECK(overlapping_texts(page_with({text_at(10, 20), text_at(20, 20)})).empty());
    CHECK(overlapping_texts(page_with({text_at(10, 20), text_at(15, 22, "  ")})).empty());
}

TEST_CASE("missing glyphs and clusters that do not add up are found") {
    frame::GlyphRun missing = text_at(10, 20);
    missing.glyphs[1].id = 0;
    CHECK(missing_glyphs(page_with({missing})).size() == 1);
    CHECK(missing_glyphs(page_with({text_at(10, 20, "abc")})).size() == 1);
}

TEST_CASE("weak colours are found by the ratio they must have") {
    frame::GlyphRun pale = text_at(10, 20);
    pale.colour = {0xD5, 0x5E, 0x00};
    CHECK(weak_text_colours(page_with({pale})).size() == 1);
    CHECK(weak_colours({{0xD5, 0x5E, 0x00}, {0xE6, 0x9F, 0x00}}).size() == 1);
    CHECK(alike_in_grey({{0x00, 0x72, 0xB2}, {0x1A, 0x1A, 0x1A}}).empty());
    CHECK(alike_in_grey({{0x80, 0x80, 0x80}, {0x80, 0x80, 0x81}}).size() == 1);
}

TEST_CASE("faults of structure are found") {
    frame::Group figure, row, head;
    figure.role = Role::Figure;
    row.role = Role::TableRow;
    row.items = {text_at(10, 20)};
    head.role = Role::HeadCell;
    CHECK(structure_faults(page_with({figure})).size() == 1);
    CHECK(structure_faults(page_with({row})).size() == 1);
    CHECK(structure_faults(page_with({head})).size() == 1);
}
