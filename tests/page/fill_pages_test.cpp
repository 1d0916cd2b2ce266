#include "page/fill_pages.hpp"

#include "layouts/layout.hpp"
#include "support/frame_checks.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using namespace wayfolio::page;

namespace {

/// Stands on a page of its own.
report::Block composed(const std::string& words) {
    return report::PositioningOpening{.opening = {.label = words, .anchor = words, .lead = {}, .body = {}}};
}

/// Goes on below what stands before it.
report::Block flowing(const std::string& words) {
    return report::Sections{.opening = {.label = words, .anchor = words, .lead = {}, .body = {}},
                            .sections = {{.heading = "", .parts = {}}}};
}

std::vector<Draft> filled(const std::vector<report::Block>& blocks) {
    static const layouts::Layout layout = layouts::read_layout("report", "A4");
    report::Model model;
    model.blocks = blocks;
    return fill_pages(model, {layout, testing::shaper()});
}

}  // namespace

TEST_CASE("pages come in the order of their blocks, however these are shared out to threads") {
    const auto pages = filled({composed("one"), flowing("below one"), composed("two"), composed("three"), flowing("first"),
                               flowing("below it"), composed("four")});
    // How each begins, and how it ends.
    const std::vector<std::pair<std::string, std::string>> wanted{
        {"one ", "below one "}, {"two ", ""}, {"three ", "first below it "}, {"four ", ""}};
    REQUIRE(pages.size() == wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const std::string words = testing::words_of(pages[i].items);
        CHECK(words.starts_with(wanted[i].first));
        CHECK(words.ends_with(wanted[i].second));
    }
    CHECK(filled({}).empty());
}

TEST_CASE("what needs a whole page leaves the rest of one before it to text from further behind, but never to the end of the report") {
    const auto high = [](const std::string& words) {
        std::string body;
        for (int i = 0; i < 770; ++i) body += "word ";
        return report::Block(
            report::EnvironmentOpening{.opening = {.label = words, .anchor = words, .lead = {}, .body = report::Text(body)}});
    };
    auto end = std::get<report::Sections>(flowing("end"));
    end.ends_report = true;
    const auto starts = [](const std::vector<Draft>& pages) {
        std::vector<std::string> words;
        for (const Draft& page : pages) words.push_back(testing::words_of(page.items).substr(0, 9));
        return words;
    };
    CHECK(starts(filled({flowing("one"), high("two"), flowing("three")})) == std::vector<std::string>{"one three", "two word "});
    CHECK(starts(filled({flowing("one"), high("two"), report::Block(end)})) == std::vector<std::string>{"one ", "two word ", "end End o"});
}

TEST_CASE("of several letters that no font has, the first in the report's order is named, whichever thread finds its own first") {
    // The second part is the longest, and so the first to be placed.
    const std::vector<report::Block> blocks{composed("\u682a"), composed("two"), flowing("below"), flowing("below"), flowing("\u0e17")};
    for (int i = 0; i < 20; ++i) CHECK_THROWS_WITH(filled(blocks), Catch::Contains("U+682A"));
}
