#include "produce/produce.hpp"
#include "produce/unset_text.hpp"

#include "frame/dump.hpp"
#include "layouts/layout.hpp"
#include "document/read_document.hpp"
#include "support/all_documents.hpp"
#include "support/frame_checks.hpp"
#include "support/golden.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <regex>
#include <set>

using namespace wayfolio;

namespace {

const std::filesystem::path source = WAYFOLIO_SOURCE_FOLDER;

std::vector<frame::Frame> pages_of(const std::filesystem::path& path, const std::string& layout_name, const std::string& paper) {
    const auto document = document::read_document(path);
    const auto evaluation = evaluate::evaluate(document);
    const auto layout = layouts::read_layout(layout_name, paper);
    return produce::report_pages({document, evaluation, layout, testing::shaper()});
}

}  // namespace

TEST_CASE("no page of any sample, layout and paper has a fault that a careful reader would see", "[slow]") {
    for (const auto& path : testing::all_documents()) {
        for (const std::string& layout : layouts::shipped_layouts()) {
            for (const std::string paper : {"A4", "Letter"}) {
                const auto pages = pages_of(path, layout, paper);
                CHECK_FALSE(pages.empty());
                for (const frame::Frame& page : pages) {
                    INFO(path.filename().string() << ", " << layout << " on " << paper << ", page " << page.label);
                    CHECK(testing::page_faults(page) == std::vector<std::string>{});
                }
            }
        }
    }
}

TEST_CASE("every figure of every sample stands whole on its sheet") {
    for (const auto& path : testing::all_documents()) {
        const auto document = document::read_document(path);
        const auto evaluation = evaluate::evaluate(document);
        const auto layout = layouts::read_layout("report", "A4");
        for (const auto& name : produce::figure_names(document, evaluation)) {
            for (const produce::FigureWidth width : {produce::FigureWidth::Column, produce::FigureWidth::Narrow}) {
                const auto frame = produce::figure({document, evaluation, layout, testing::shaper()}, name, width);
                INFO(path.filename().string() << ": " << name.series << " " << name.name << ", " << frame.width.in(units::point) << " pt");
                CHECK(testing::page_faults(frame) == std::vector<std::string>{});
            }
        }
    }
}

TEST_CASE("invented data and drafts say so on every page") {
    for (const auto& page : pages_of(source / "sample-results/short-axis.json", "report", "A4")) {
        CHECK(testing::words_of(page.items).find("Invented data for demonstration") != std::string::npos);
    }
    for (const auto& page : pages_of(source / "tests/golden/awkward/draft-with-internal-remarks.json", "report", "A4")) {
        CHECK(testing::words_of(page.items).find("Draft") != std::string::npos);
    }
}

TEST_CASE("links lead to anchors that exist, and every anchor stands once") {
    std::set<std::string> anchors;
    std::vector<std::string> wanted;
    for (const auto& page : pages_of(source / "sample-results/long-axis.json", "report", "A4")) {
        frame::walk(page.items, frame::overloaded{[&](const frame::Group& group) {
                                                      if (!group.anchor.empty()) CHECK(anchors.insert(group.anchor).second);
                                                  },
                                                  [&](const frame::Link& link) {
                                                      if (!link.destination.empty()) wanted.push_back(link.destination);
                                                  }});
    }
    CHECK_FALSE(wanted.empty());
    for (const std::string& destination : wanted) CHECK(anchors.contains(destination));
}

TEST_CASE("the opening of the smallest document is drawn as it was") {
    const auto pages = pages_of(source / "sample-results/smallest.json", "figures", "A4");
    REQUIRE(pages.size() == 1);
    // The fingerprint depends on every byte of layouts and on the libraries' versions; it has tests of its own.
    static const std::regex fingerprint(R"x(width [0-9.]+ ("wayfolio .*fingerprint) [0-9a-f]{16}")x");
    testing::check_golden("produce/smallest-opening.txt", std::regex_replace(frame::dump(pages[0]), fingerprint, "$1 of what went in\""));
}

TEST_CASE("a notice that is wider than its place in the foot goes on in a second line, on every page") {
    for (const frame::Frame& page : pages_of(source / "sample-results/nist-sirstv.json", "report", "A4")) {
        const std::string dump = frame::dump(page);
        CHECK(std::regex_search(dump, std::regex("\"Published reference numbers, ?(not )?(an )?\"")));
        CHECK(std::regex_search(dump, std::regex("\"(not )?(an )?axis\"")));
        CHECK(testing::page_faults(page) == std::vector<std::string>{});
    }
}

TEST_CASE("words wider than the running head are cut there with an ellipsis") {
    std::string words = support::file_bytes(source / "sample-results/short-axis.json");
    words.replace(words.find("WF-1001"), 7, "WF-" + std::string(150, 'W'));
    const support::TemporaryFolder folder;
    const auto pages = pages_of(folder.file("long-number.json", words), "report", "A4");
    CHECK(std::regex_search(frame::dump(pages.back()), std::regex("Calibration report WF-W+\u2026")));
    for (const frame::Frame& page : pages) CHECK(testing::page_faults(page) == std::vector<std::string>{});
}

TEST_CASE("every text that no font can set is a fault with its place, and no report is drawn") {
    std::string words = support::file_bytes(source / "sample-results/short-axis.json");
    const auto replace = [&](const std::string& old, const std::string& by) { words.replace(words.find(old), old.size(), by); };
    replace("Sample Customer Works", "\u682a Works");
    replace("\"All quantities were read", "\"\u05e9 were read");
    const support::TemporaryFolder folder;
    const std::string file = folder.file("two-letters.json", words);
    const auto problems = [&] {
        try {
            pages_of(file, "report", "A4");
        } catch (const input::InputRejected& rejected) { return rejected.problems(); }
        return std::vector<input::Problem>{};
    }();
    REQUIRE(problems.size() == 2);
    CHECK(problems[0].file == file);
    CHECK(problems[0].place.pointer == "/job/customer/name");
    CHECK(problems[0].place.line == 10);
    CHECK(problems[0].found == "the character \"\u682a\" (U+682A, script Han)");
    CHECK(problems[1].place.pointer == "/job/remarks/0");
    CHECK(problems[1].expected == "text written from left to right");
}

TEST_CASE("a script that no font has is named, not drawn as boxes") {
    CHECK_THROWS_WITH(pages_of(source / "tests/golden/awkward/script-without-font.json", "report", "A4"),
                      Catch::Contains("/job/title") && Catch::Contains("script Devanagari"));
}

TEST_CASE("texts that are never drawn may hold letters that no font has, and an accent may stand alone") {
    const auto unset = [](const std::string& bytes) {
        document::Document document;
        document.bytes = bytes;
        document.file = "document.json";
        return produce::unset_texts(document, testing::shaper()).size();
    };
    CHECK(unset("{\"internal\": {\"remarks\": [\"\u682a\"]}, \"x-own\": {\"name\": \"\u682a\"}}") == 0);
    CHECK(unset("{\"job\": {\"title\": \"e\u0301 \u0416 \u03b1 \u2212\"}}") == 0);
    CHECK(unset("{\"job\": {\"title\": \"\\u682a\"}, \"remarks\": [\"\u682a\", \"plain\"]}") == 2);
}
