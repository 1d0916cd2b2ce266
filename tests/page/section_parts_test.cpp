#include "page/blocks/sections/section_parts.hpp"

#include "frame/walk.hpp"
#include "layouts/layout.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::page;

namespace {

std::size_t count(const std::vector<Item>& items, frame::Role role) {
    std::size_t found = 0;
    frame::walk(items, [&](const Group& group) { found += group.role == role; });
    return found;
}

/// How many bullets stand on each page when a list of `items` begins `room` above the page's end.
std::vector<std::size_t> bullets_by_page(std::size_t items, Paper room) {
    static const layouts::Layout layout = layouts::read_layout("report", "A4");
    const Tools tools{layout, testing::shaper()};
    Composer composer(tools, {});
    composer.new_page();
    composer.y = composer.last_baseline() - room;
    report::BulletList list;
    for (std::size_t i = 0; i < items; ++i) list.items.emplace_back(i % 3 == 1 ? "two\nlines" : "one line");
    place_section(composer, {.heading = "What to do", .parts = {std::move(list)}}, "Continued");
    std::vector<std::size_t> pages;
    for (const Draft& draft : composer.take()) {
        pages.push_back(count(draft.items, frame::Role::ListItem));
        CHECK((count(draft.items, frame::Role::Heading2) == 0 || pages.back() > 0));
    }
    return pages;
}

}  // namespace

TEST_CASE("a list breaks over pages, but its last item never stands alone and its heading never without an item") {
    bool broken = false;
    for (std::size_t items = 1; items <= 8; ++items)
        for (int room = 0; room <= 200; room += 4) {
            CAPTURE(items, room);
            const auto pages = bullets_by_page(items, pt(room));
            std::size_t all = 0;
            for (const std::size_t on_page : pages) all += on_page;
            CHECK(all == items);
            CHECK((items == 1 || pages.back() != 1));
            broken |= pages.size() == 2 && pages[0] > 0;
        }
    CHECK(broken);
}
