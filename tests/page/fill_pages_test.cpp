#include "page/filling/fill_pages.hpp"
#include "page/filling/filled_part.hpp"

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

TEST_CASE("pages that are filled again count only where each block and anchor stands where it stood: its page is named already") {
    static const layouts::Layout layout = layouts::read_layout("report", "A4");
    const Tools tools{layout, testing::shaper()};
    const report::Block one = composed("one"), below = flowing("below");
    const PageNumbers known;
    FilledPart part;
    Composer composer(tools, known);
    part.blocks.push_back(place_block(composer, one));
    composer.may_share_page = true;
    part.blocks.push_back(place_block(composer, below));
    part.blocks[0].names_pages = true;
    part.anchors = composer.anchors();
    part.drafts = composer.take();
    REQUIRE(part.anchors.at("below") == 1);
    CHECK(name_pages(part, tools, known));
    part.anchors["below"] = 2;
    CHECK_FALSE(name_pages(part, tools, known));
    part.anchors["below"] = 1;
    part.blocks[1].page = 1;
    CHECK_FALSE(name_pages(part, tools, known));
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

namespace {

/// Sections of so many lines each, in a text that is looked up or that ends the report.
report::Sections text_of(const std::string& label, const std::vector<int>& lines) {
    report::Sections text{.opening = {.label = label, .anchor = label, .lead = {}, .body = {}}};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        report::PlainTable table{.columns = {{"Row", 1}}};
        for (int line = 0; line < lines[i]; ++line) table.rows.push_back({report::Text(label + std::to_string(i) + "row")});
        text.sections.push_back({.heading = "", .parts = {std::move(table)}});
    }
    return text;
}

/// Ends after about so many lines of a page that it shares.
report::Block lines_of(const std::string& label, int lines) { return text_of(label, {lines}); }

std::size_t pages_with(const std::vector<Draft>& pages, const std::string& words) {
    return static_cast<std::size_t>(std::ranges::count_if(
        pages, [&](const Draft& page) { return testing::words_of(page.items).find(words) != std::string::npos; }));
}

report::Block whole_page() {
    std::string body;
    for (int i = 0; i < 770; ++i) body += "word ";
    return report::EnvironmentOpening{.opening = {.label = "whole", .anchor = "whole", .lead = {}, .body = report::Text(body)}};
}

}  // namespace

TEST_CASE("a page is filled by the texts that fill most of it whole, before any is parted") {
    // Below 20 rows some 30 more fit. "long" has 38 and would have to be parted; "low" and "half" stand there whole.
    const auto pages = filled({lines_of("first", 20), whole_page(), report::Block(text_of("long", {18, 20})), lines_of("low", 8),
                               lines_of("half", 12)});
    REQUIRE(pages.size() >= 2);
    const std::string begun = testing::words_of(pages[0].items);
    CHECK(begun.find("low0row") != std::string::npos);
    CHECK(begun.find("half0row") != std::string::npos);
    CHECK(begun.find("long") == std::string::npos);
    // So the long one stands in one place.
    CHECK(pages_with(pages, "long0row") == 1);
    CHECK(pages_with(pages, "long, continued") == 0);
}

TEST_CASE("what ends a report is begun earlier only where a page would end early, and its last section stays with the signatures") {
    auto end = text_of("end", {6, 6, 3});
    end.ends_report = true;
    end.signatures = {{"Measured by", ""}};
    const auto early = filled({lines_of("first", 20), whole_page(), report::Block(end)});
    REQUIRE(early.size() == 3);
    CHECK(testing::words_of(early[0].items).find("end0row") != std::string::npos);
    CHECK(testing::words_of(early[0].items).find("Measured by") == std::string::npos);
    CHECK(testing::words_of(early[2].items).find("end2row") != std::string::npos);
    CHECK(testing::words_of(early[2].items).find("Measured by") != std::string::npos);
    const auto full = filled({lines_of("first", 46), whole_page(), report::Block(end)});
    CHECK(testing::words_of(full[0].items).find("end0row") == std::string::npos);
}

TEST_CASE("of several letters that no font has, the first in the report's order is named, whichever thread finds its own first") {
    // The second part is the longest, and so the first to be placed.
    const std::vector<report::Block> blocks{composed("\u682a"), composed("two"), flowing("below"), flowing("below"), flowing("\u0e17")};
    for (int i = 0; i < 20; ++i) CHECK_THROWS_WITH(filled(blocks), Catch::Contains("U+682A"));
}
