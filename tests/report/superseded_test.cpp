#include "report/blocks/blocks.hpp"
#include "report/build.hpp"
#include "report/words/names.hpp"

#include "document/read_document.hpp"
#include "support/all_documents.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace wayfolio;
using support::says;

namespace {

/// Positioning as found, 0 to 12 µm, and as left, 0 to 2 µm.
document::Document found_and_left() {
    auto found = support::series("EXX", {0, 500, 1000}, {{0, 4, 9}, {0, 5, 9}}, {{2, 8, 12}, {2, 7, 12}});
    auto left = support::series("EXX", {0, 500, 1000}, {{0, 1, 1}, {0, 1, 1}}, {{1, 1, 2}, {1, 1, 2}});
    found.id = "x-found";
    found.state = "as-found";
    left.id = "x-left";
    left.state = "as-left";
    document::Document document = support::document(found);
    document.series.push_back(left);
    support::add_axis(document, "X", 0, 1000);
    return document;
}

std::vector<std::string> labels(const report::Model& model) {
    std::vector<std::string> all;
    for (const auto& block : model.blocks)
        std::visit([&](const auto& one) { all.push_back(one.opening.label); }, block);
    return all;
}

bool has(const std::vector<std::string>& all, const std::string& wanted) { return std::ranges::find(all, wanted) != all.end(); }

std::set<std::string> anchors_of(const report::Model& model) {
    std::set<std::string> all;
    for (const auto& block : model.blocks)
        std::visit(
            [&](const auto& one) {
                all.insert(one.opening.anchor);
                if constexpr (requires { one.panels; })
                    for (const auto& panel : one.panels) all.insert(panel.anchor);
            },
            block);
    return all;
}

}  // namespace

TEST_CASE("a state that a later one supersedes has no opening where both stand side by side, and its numbers stand there") {
    const support::Reported job{found_and_left()};
    const auto all = labels(report::build(job.subject()));
    CHECK(has(all, "Positioning EXX, as left"));
    CHECK_FALSE(has(all, "Positioning EXX, as found"));
    CHECK(has(all, "Readings of EXX, as found"));
    const auto states = report::states(job.subject());
    REQUIRE(states);
    const std::string words = support::words_of(states->sections);
    CAPTURE(words);
    CHECK(says(words, "As found, what no other page says\nResult|EXX A|EXX E|EXX M|EXX R|EXX B|\n"));
    CHECK(says(words, "unit|µm|µm|µm|µm|µm|\n"));
    // E: 12 - 0; positive 9 - 0, negative 12 - 2, set by targets 3 and 1. R: no scatter but at the second target, 5 and 4 or 8 and 7:
    // s = 0.7071, 4 s = 2.828; 2 s + 2 s + |4.5 - 7.5| = 5.828; printed to the digits of the readings, as nothing has a U.
    CHECK(says(words, "positive|9|9||3||\n"));
    CHECK(says(words, "negative|10|10||3||\n"));
    CHECK(says(words, "set by targets|3,\u00a01|3,\u00a01|3,\u00a01|2|2|\n"));
}

TEST_CASE("an older evaluation of a superseded state keeps its row, for no other page has it") {
    auto document = found_and_left();
    document.evaluation.also = {document::OlderStandard::Iso230_2_1988};
    const support::Reported job{std::move(document)};
    const auto states = report::states(job.subject());
    REQUIRE(states);
    const std::string words = support::words_of(states->sections);
    CAPTURE(words);
    CHECK(says(words, "For comparison only|positive|negative|both|\n"));
    CHECK(says(words, "with 3\u202fs (ISO 230-2:1988)"));
}

TEST_CASE("a sheet without an answer, or without a page that compares, opens every state") {
    support::Reported job{found_and_left()};
    for (const char* left_out : {"answer", "states"}) {
        CAPTURE(left_out);
        job.layout = layouts::read_layout("report", "A4");
        std::erase(job.layout.blocks, left_out);
        const auto all = labels(report::build(job.subject()));
        CHECK(has(all, "Positioning EXX, as found"));
        CHECK(has(all, "Positioning EXX, as left"));
        CHECK(report::superseded_numbers(job.subject()).empty());
    }
    CHECK(report::superseded_numbers(support::Reported{found_and_left()}.subject()).size() == 1);
}

TEST_CASE("every row of the first page leads to a page that the report has", "[samples]") {
    std::size_t rows = 0;
    for (const auto& path : testing::all_documents()) {
        CAPTURE(path.filename().string());
        const support::Reported job{document::read_document(path)};
        const report::Model model = report::build(job.subject());
        const auto anchors = anchors_of(model);
        const auto& answer = std::get<report::Answer>(model.blocks.front());
        for (const auto& row : answer.rows) CHECK(anchors.contains(row.destination));
        for (const auto& some : answer.quiet)
            for (const auto& row : some.rows) {
                CHECK(anchors.contains(row.destination));
                ++rows;
            }
    }
    CHECK(rows > 50);
}
