#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "layouts/layout.hpp"
#include "support/all_documents.hpp"
#include "support/frame_parts.hpp"
#include "support/page_ends.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;

TEST_CASE("pages end as a reader expects: full, with no heading and no row alone", "[slow][again]") {
    std::size_t pages_seen = 0;
    for (const auto& path : testing::documents_in({"sample-results", "sample-results/visits", "tests/golden/awkward"})) {
        const auto document = document::read_document(path);
        const auto evaluation = evaluate::evaluate(document);
        for (const std::string paper : {"A4", "Letter"}) {
            const auto layout = layouts::read_layout("report", paper);
            const auto pages = produce::report_pages({document, evaluation, layout, testing::shaper()});
            INFO(path.filename().string() << " on " << paper << ", " << pages.size() << " pages");
            CHECK(testing::early_ends(pages, layout.grid()) == testing::Findings{});
            CHECK(testing::single_rows(pages) == testing::Findings{});
            for (const frame::Frame& page : pages) {
                CHECK(testing::lone_headings(page) == testing::Findings{});
                CHECK(testing::continued_twice(page) == testing::Findings{});
                CHECK(testing::texts_past_the_margins(page, layout.grid()) == testing::Findings{});
            }
            pages_seen += pages.size();
        }
    }
    CHECK(pages_seen > 500);
}

namespace {

/// Pages that nothing of this layout fills: what follows needs a whole page, and all text is spent.
testing::Findings known_early_ends(const std::string& file, const std::string& paper) {
    if (file == "short-axis.json" && paper == "Letter") return {"page 2 ends at 550 pt, above 570"};
    if (file == "eight-series.json" && paper == "A4") return {"page 2 ends at 565 pt, above 606"};
    return {};
}

}  // namespace

TEST_CASE("what is handed over ends its pages as a report does, but for two pages of all", "[slow][again]") {
    for (const auto& path : testing::documents_in({"sample-results", "sample-results/visits", "tests/golden/awkward"})) {
        const auto document = document::read_document(path);
        const auto evaluation = evaluate::evaluate(document);
        for (const std::string paper : {"A4", "Letter"}) {
            const auto layout = layouts::read_layout("customer", paper);
            const auto pages = produce::report_pages({document, evaluation, layout, testing::shaper()});
            INFO(path.filename().string() << " on " << paper << ", " << pages.size() << " pages");
            CHECK(testing::early_ends(pages, layout.grid()) == known_early_ends(path.filename().string(), paper));
            CHECK(testing::single_rows(pages) == testing::Findings{});
            for (const frame::Frame& page : pages) CHECK(testing::lone_headings(page) == testing::Findings{});
        }
    }
}

TEST_CASE("text is taken forward only where that leaves no page half empty") {
    // Facts that went on behind a polar plot left their page to a compensation that needs a page of its own.
    const auto document = document::read_document(std::string(WAYFOLIO_SOURCE_FOLDER) + "/tests/golden/awkward/rotary-in-degrees.json");
    const auto layout = layouts::read_layout("customer", "Letter");
    const auto pages = produce::report_pages({document, evaluate::evaluate(document), layout, testing::shaper()});
    CHECK(pages.size() == 5);
    CHECK(testing::early_ends(pages, layout.grid()) == testing::Findings{});
}

TEST_CASE("rows of uncertainties that a page holds closer together are not parted") {
    for (const std::string sample : {"two-axes", "short-axis", "long-axis", "rotary-axis"}) {
        const auto document = document::read_document(std::string(WAYFOLIO_SOURCE_FOLDER) + "/sample-results/" + sample + ".json");
        const auto layout = layouts::read_layout("report", "A4");
        std::size_t parts = 0;
        for (const frame::Frame& page : produce::report_pages({document, evaluate::evaluate(document), layout, testing::shaper()}))
            parts += testing::groups_where(page.items, [](const frame::Group& one) { return one.continues == "uncertainties"; }).size();
        INFO(sample);
        CHECK(parts == 1);
    }
}

TEST_CASE("a report is as long as what it says") {
    const auto length = [](const std::string& sample) {
        const auto document = document::read_document(std::string(WAYFOLIO_SOURCE_FOLDER) + "/sample-results/" + sample);
        const auto layout = layouts::read_layout("report", "A4");
        return produce::report_pages({document, evaluate::evaluate(document), layout, testing::shaper()}).size();
    };
    CHECK(length("short-axis.json") == 12);  // six quantities in one state
    CHECK(length("two-axes.json") == 11);
    CHECK(length("rotary-axis.json") == 7);
    CHECK(length("smallest.json") == 3);
    CHECK(length("long-axis.json") == 19);  // as found and as left, six quantities at 27 targets in ten runs
}
