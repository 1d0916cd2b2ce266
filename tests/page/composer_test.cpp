#include "page/composer.hpp"
#include "page/table.hpp"

#include "frame/walk.hpp"
#include "layouts/layout.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::page;

namespace {

const layouts::Layout& layout() {
    static const layouts::Layout read = layouts::read_layout("report", "A4");
    return read;
}

Tools tools() { return {layout(), testing::shaper()}; }

/// Right end of the run that holds `words`.
Paper end_of(const std::vector<Item>& items, const std::string& words) {
    std::optional<Paper> end;
    frame::walk(items, [&](const frame::GlyphRun& run) {
        if (run.text == words) end = run.origin.x + run.advance;
    });
    if (!end) throw std::logic_error("no run says " + words);
    return *end;
}

}  // namespace

TEST_CASE("blocks start on the grid, at or below where they are wanted") {
    const Tools used = tools();
    Composer composer(used, {});
    composer.new_page();
    CHECK(composer.baseline(0) == pt(84));
    CHECK(composer.on_grid(pt(84)) == pt(84));
    CHECK(composer.on_grid(pt(84.5)) == pt(96));
}

TEST_CASE("numbers of one column align on their decimal mark, whatever their decimals") {
    const Tools used = tools();
    std::vector<Item> items;
    put_decimal(items, used, Text("29.1"), {}, {pt(100), pt(0)});
    put_decimal(items, used, Text("9.73"), {}, {pt(100), pt(12)});
    put_decimal(items, used, Text("40"), {}, {pt(100), pt(24)});
    const auto tail = [&](const char* words) { return plot::width_of(used, Text(words), {}); };
    CHECK((end_of(items, "29.1") - tail("29.1") + tail("29")).in(units::point) == Approx(100));
    CHECK((end_of(items, "9.73") - tail("9.73") + tail("9")).in(units::point) == Approx(100));
    CHECK(end_of(items, "40").in(units::point) == Approx(100));
}

TEST_CASE("a paragraph tells where its last line stands") {
    const Placed placed = paragraph(tools(), Text("one\ntwo\nthree"), {.type = layouts::TypeRole::Body}, {pt(66), pt(84)}, pt(300));
    CHECK(placed.lines == 3);
    CHECK(placed.last == pt(84 + 24));
}
