#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "layouts/layout.hpp"
#include "support/frame_checks.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

/// The words of the short axis in a layout of a house.
std::string words_with(const std::string& members) {
    static const auto document = document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/short-axis.json");
    static const auto evaluation = evaluate::evaluate(document);
    const auto layout = layouts::read_layout_bytes(
        R"({"format": "wayfolio-layout", "version": 1, "name": "mine", "extends": "customer")" + members + "}", "mine.json", "");
    std::string words;
    for (const auto& page : produce::report_pages({document, evaluation, layout, testing::shaper()}))
        words += testing::words_of(page.items);
    return words;
}

}  // namespace

TEST_CASE("a house's own text stands in its report, and those sign whom it names") {
    const std::string words = words_with(
        R"(, "house": {"heading": "Terms of the house", "paragraphs": ["Complaints within 30 days."],
                       "signatures": ["Field engineer", "Quality"]})");
    CHECK_THAT(words, Contains("Terms of the house") && Contains("Complaints within 30 days.") && Contains("Quality"));
    CHECK_THAT(words, !Contains("Head of laboratory"));
    CHECK_THAT(words_with(""), Contains("Head of laboratory") && !Contains("Quality"));
}

TEST_CASE("a house's first line stands above the head of the first page, once, and in full where it is too wide for its line") {
    const std::string line = "Form 12-A of the house", key = R"(, "house": {"first_line": ")", words = words_with(key + line + "\"}");
    CHECK_THAT(words, Contains(line + " Example Calibration Laboratory"));
    CHECK(words.find(line) == words.rfind(line));
    std::string wide;
    for (char last = 'A'; last < 'K'; ++last) wide += std::string(wide.empty() ? "" : " ") + "WWWWWWWWW" + last;
    const std::string shortened = words_with(key + wide + "\"}"), end = "WWWWWWWWWJ ";
    CHECK_THAT(shortened, Contains("W\u2026 Example Calibration Laboratory") && Contains("First line"));
    REQUIRE(shortened.find(end) != std::string::npos);
    CHECK(shortened.find(end) == shortened.rfind(end));
}

TEST_CASE("a letter of a house's text that no font has is a fault with its place in the layout") {
    try {
        (void)words_with(R"(, "house": {"heading": "Terms", "paragraphs": ["\u682a"]})");
        FAIL("it was drawn");
    } catch (const input::InputRejected& rejected) {
        REQUIRE(rejected.problems().size() == 1);
        CHECK(rejected.problems()[0].place.pointer == "/house/paragraphs/0");
        CHECK_THAT(rejected.problems()[0].found, Contains("U+682A"));
    }
}
