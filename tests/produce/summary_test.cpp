#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "layouts/layout.hpp"
#include "report/blocks/blocks.hpp"
#include "support/all_documents.hpp"
#include "support/frame_checks.hpp"
#include "support/small_documents.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using Catch::Matchers::Contains;
using report::Standing;
using testing::small::Json;
namespace small = testing::small;

namespace {

struct Summary {
    report::Answer answer;
    std::vector<frame::Frame> pages;
    std::string words;  ///< of the first, without spaces: a line may end at any
};

std::string without_spaces(std::string words) {
    std::erase(words, ' ');
    return words;
}

Summary summary_of(const document::Document& document, const std::string& paper = "A4") {
    const auto evaluation = evaluate::evaluate(document);
    const auto layout = layouts::read_layout("summary", paper);
    Summary made{report::answer({document, evaluation, layout}),
                 produce::report_pages({document, evaluation, layout, testing::shaper()}), ""};
    made.words = without_spaces(testing::words_of(made.pages.at(0).items));
    return made;
}

Summary summary_of(const Json& json) {
    return summary_of(document::read_document(json.dump(), "made.json", [](const std::string&) { return std::string(); }));
}

bool is_kept_to(const report::QuantityRow& row) { return row.verdict.standing >= Standing::InsideByLess; }

/// Axis after axis with the limit that it exceeds, or keeps: the deviations of all are the same.
Json many_limits(std::size_t exceeded, std::size_t kept) {
    Json all = Json::array();
    for (std::size_t i = 0; i < exceeded + kept; ++i) {
        Json series = small::with_tolerances(small::x_series(), small::list(small::tolerance("A", i < exceeded ? 1 : 30)));
        series["id"] = "x" + std::to_string(i);
        all.push_back(std::move(series));
    }
    return small::document(std::move(all));
}

}  // namespace

TEST_CASE("a summary is one page for any document, on it every limit that is not kept, and what it leaves out is counted", "[slow]") {
    std::size_t not_kept = 0, counted = 0;
    for (const auto& path : testing::documents_in({"sample-results", "sample-results/visits", "tests/golden/awkward"})) {
        for (const std::string paper : {"A4", "Letter"}) {
            const Summary summary = summary_of(document::read_document(path), paper);
            INFO(path.filename().string() << " on " << paper);
            CHECK(summary.pages.size() == 1);
            for (const frame::Frame& page : summary.pages) CHECK(testing::page_faults(page) == testing::Findings{});
            for (const report::QuantityRow& row : summary.answer.rows) {
                if (is_kept_to(row)) continue;
                CHECK_THAT(summary.words, Contains(without_spaces(row.result.words())));
                CHECK_THAT(summary.words, Contains(without_spaces(row.verdict.margin.words())));
                ++not_kept;
            }
            counted += summary.words.find("Notonthispage:") != std::string::npos;
        }
    }
    CHECK(not_kept > 40);
    CHECK(counted > 5);
}

TEST_CASE("of more limits than a page holds, those that are kept give way, and their number is said") {
    const Summary summary = summary_of(many_limits(9, 40));
    REQUIRE(summary.pages.size() == 1);
    CHECK(testing::page_faults(summary.pages[0]) == testing::Findings{});
    std::size_t outside = 0, inside = 0;
    testing::checking::walk(summary.pages[0].items, [&](const frame::Group& group) {
        if (group.role != frame::Role::TableRow) return;
        const std::string words = testing::words_of(group.items);
        outside += words.find("Outside") != std::string::npos;
        inside += words.find("Inside") != std::string::npos;
    });
    CHECK(outside == 9);
    CHECK(inside < 40);
    CHECK_THAT(summary.words, Contains("40of49valuesareinsidetheirlimits.Nineareoutside."));
    CHECK_THAT(summary.words, Contains(":" + std::to_string(40 - inside) + "limits,allinside;"));
}

TEST_CASE("of more exceeded limits than a page holds, it says how many it leaves out") {
    const Summary summary = summary_of(many_limits(80, 3));
    REQUIRE(summary.pages.size() == 1);
    CHECK(testing::page_faults(summary.pages[0]) == testing::Findings{});
    CHECK_THAT(summary.words, Contains("outside,3inside;"));
}

TEST_CASE("what a page leaves out is told by kind, and nothing is said of what is there") {
    CHECK(report::words_of(report::LeftOut{}).empty());
    CHECK(report::words_of(report::LeftOut{.rows = {{Standing::Inside, 7}}}).words() ==
          "Not on this page: 7 limits, all inside. All are kept: see the report.");
    CHECK(report::words_of(report::LeftOut{.rows = {{Standing::Undecided, 1}}, .quiet = 1, .steps = 2}).words() ==
          "Not on this page: 1 limit, undecided; 1 value without a limit or superseded; 2 steps to do next. All are kept: see the report.");
    CHECK(report::words_of(report::LeftOut{.rows = {{Standing::Outside, 2}, {Standing::Inside, 3}, {Standing::NoLimit, 4}}}).words() ==
          "Not on this page: 5 limits: 2 outside, 3 inside; 4 values without a limit or superseded. All are kept: see the report.");
}

TEST_CASE("a report that goes on behind its first page leaves nothing out there") {
    const auto document = document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/long-axis.json");
    const auto evaluation = evaluate::evaluate(document);
    std::string words;
    for (const auto& page : produce::report_pages({document, evaluation, layouts::read_layout("report", "A4"), testing::shaper()}))
        words += testing::words_of(page.items);
    CHECK_THAT(words, !Contains("Not on this page"));
}
