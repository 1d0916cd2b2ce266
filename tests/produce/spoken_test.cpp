#include "document/read_document.hpp"
#include "frame/overloaded.hpp"
#include "frame/walk.hpp"
#include "layouts/layout.hpp"
#include "produce/produce.hpp"
#include "support/frame_parts.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;
using frame::Role;

namespace {

const std::filesystem::path spoken_source = WAYFOLIO_SOURCE_FOLDER;

std::vector<frame::Frame> spoken_pages(const std::filesystem::path& path) {
    const auto document = document::read_document(path);
    const auto evaluation = evaluate::evaluate(document);
    const auto layout = layouts::read_layout("report", "A4");
    return produce::report_pages({document, evaluation, layout, testing::shaper()});
}

/// Samples and awkward documents; one of them holds a script that no font has.
std::vector<std::filesystem::path> spoken_documents() {
    std::vector<std::filesystem::path> all;
    for (const char* folder : {"sample-results", "tests/golden/awkward"})
        for (const auto& entry : std::filesystem::directory_iterator(spoken_source / folder))
            if (entry.path().extension() == ".json" && entry.path().stem() != "script-without-font") all.push_back(entry.path());
    std::ranges::sort(all);
    return all;
}

std::vector<const frame::Group*> with_role(const std::vector<frame::Item>& items, Role role) {
    return testing::groups_where(items, [&](const frame::Group& group) { return group.role == role; });
}

/// Whether something is drawn that neither text nor a text in its place says.
bool has_mute_drawing(const std::vector<frame::Item>& items) {
    const auto mute = [](const auto&) { return frame::Walk::Stop; };
    return !frame::walk(items, frame::overloaded{[](const frame::Group& group) {
                                                     return group.alternative.empty() ? frame::Walk::On : frame::Walk::Past;
                                                 },
                                                 [](const frame::GlyphRun&) { return frame::Walk::On; },
                                                 [](const frame::Link&) { return frame::Walk::On; },
                                                 [](const frame::Bookmark&) { return frame::Walk::On; }, mute});
}

bool speaks(const frame::Group& cell) {
    if (!testing::words_of(cell.items).empty()) return true;
    return !testing::groups_where(cell.items, [](const frame::Group& group) { return !group.alternative.empty(); }).empty();
}

/// The runs of one element, as far as they stand in it directly.
void own_runs(const std::vector<frame::Item>& items, std::vector<const frame::GlyphRun*>& runs) {
    for (const frame::Item& item : items) {
        if (const auto* run = std::get_if<frame::GlyphRun>(&item)) runs.push_back(run);
        if (const auto* group = std::get_if<frame::Group>(&item); group && group->role == Role::Plain) own_runs(group->items, runs);
    }
}

/// Words that stand apart on a line, but would be heard and copied as one.
std::vector<std::string> joined_words(const frame::Group& element) {
    std::vector<const frame::GlyphRun*> runs;
    own_runs(element.items, runs);
    std::vector<std::string> joined;
    for (std::size_t i = 1; i < runs.size(); ++i) {
        const frame::GlyphRun &before = *runs[i - 1], &after = *runs[i];
        const double gap = (after.origin.x - before.origin.x - before.advance).in(units::point);
        const bool one_line = before.origin.y == after.origin.y, apart = gap > 1;
        const bool spaced = before.text.ends_with(' ') || after.text.starts_with(' ');
        if (one_line && apart && !spaced) joined.push_back(before.text + after.text);
    }
    return joined;
}

}  // namespace

TEST_CASE("every head cell has words, and no cell holds a drawing without", "[again]") {
    for (const auto& path : spoken_documents())
        for (const frame::Frame& page : spoken_pages(path)) {
            INFO(path.filename().string() << ", page " << page.label);
            for (const frame::Group* cell : with_role(page.items, Role::HeadCell)) CHECK(speaks(*cell));
            for (const Role role : {Role::HeadCell, Role::DataCell})
                for (const frame::Group* cell : with_role(page.items, role)) CHECK_FALSE(has_mute_drawing(cell->items));
        }
}

TEST_CASE("words that stand apart in one element are heard apart", "[again]") {
    for (const auto& path : spoken_documents())
        for (const frame::Frame& page : spoken_pages(path)) {
            INFO(path.filename().string() << ", page " << page.label);
            const auto is_heard = [](const frame::Group& group) {
                return group.role != Role::Plain && group.role != Role::Artifact && group.role != Role::Figure && group.role != Role::Span;
            };
            for (const frame::Group* element : testing::groups_where(page.items, is_heard))
                CHECK(joined_words(*element) == std::vector<std::string>{});
        }
}

TEST_CASE("report number, revision and data notice are heard once in a report, and seen on every page") {
    const auto pages = spoken_pages(spoken_source / "sample-results/short-axis.json");
    REQUIRE(pages.size() > 2);
    for (const std::string words : {"Calibration report", "Invented data for demonstration"}) {
        std::size_t heard = 0, seen = 0;
        for (const frame::Frame& page : pages) {
            const auto says = [&](const frame::Group& group) {
                return group.role == Role::Paragraph && testing::words_of(group.items).find(words) != std::string::npos;
            };
            heard += testing::groups_where(page.items, says).size();
            seen += testing::words_of(page.items).find(words) != std::string::npos ? 1 : 0;
        }
        CHECK(heard == 1);
        CHECK(seen == pages.size());
    }
}

TEST_CASE("links stand in the rows that they belong to, and captions in their figures", "[again]") {
    for (const auto& path : spoken_documents())
        for (const frame::Frame& page : spoken_pages(path)) {
            INFO(path.filename().string() << ", page " << page.label);
            CHECK(std::ranges::none_of(page.items, [](const frame::Item& item) { return std::holds_alternative<frame::Link>(item); }));
            std::size_t in_figures = 0;
            for (const frame::Group* figure : with_role(page.items, Role::Figure))
                in_figures += with_role(figure->items, Role::Caption).size();
            CHECK(with_role(page.items, Role::Caption).size() == in_figures);
        }
}

namespace {

/// The tables of readings of a document, with the rows of their heads and bodies.
struct ReadingsTable {
    std::vector<const frame::Group*> heads, rows;
};

std::vector<ReadingsTable> readings_tables(const std::vector<frame::Frame>& pages) {
    std::vector<ReadingsTable> tables;
    for (const frame::Frame& page : pages)
        for (const frame::Group* table : with_role(page.items, Role::Table))
            if (table->continues.text().find("readings-") != std::string::npos)
                tables.push_back({with_role(with_role(table->items, Role::TableHead).at(0)->items, Role::TableRow),
                                  with_role(with_role(table->items, Role::TableBody).at(0)->items, Role::TableRow)});
    return tables;
}

std::size_t spans_saying(const std::vector<frame::Item>& items, const std::string& beginning) {
    return testing::groups_where(items, [&](const frame::Group& group) {
               return group.role == Role::Span && group.alternative.text().starts_with(beginning);
           }).size();
}

}  // namespace

TEST_CASE("the heads of a readings table with both approaches in a line say approach, unit and run, and its rows their target") {
    const auto pages = spoken_pages(spoken_source / "sample-results/short-axis.json");
    const auto tables = readings_tables(pages);
    REQUIRE(tables.size() >= 6);
    for (const ReadingsTable& table : tables) {
        REQUIRE(table.heads.size() == 2);
        CHECK(testing::words_of(table.heads[0]->items).find("X / mm") != std::string::npos);
        for (const std::string approach : {"positive approach", "negative approach"}) {
            CHECK(spans_saying(table.heads[0]->items, "Reading in run, " + approach + " / µ") == 1);
            CHECK(spans_saying(table.heads[0]->items, approach) == 2);  // mean and s
        }
        for (const frame::Group* row : table.rows) {
            const auto heads = with_role(row->items, Role::HeadCell);
            REQUIRE(heads.size() == 1);
            CHECK(heads[0]->scope == frame::Scope::Row);
        }
    }
}

TEST_CASE("the places of a readings table have the name of the axis that moved") {
    const auto pages = spoken_pages(spoken_source / "sample-results/rotary-axis.json");
    const auto tables = readings_tables(pages);
    REQUIRE(!tables.empty());
    for (const ReadingsTable& table : tables) CHECK(testing::words_of(table.heads[0]->items).find("C / °") != std::string::npos);
}

TEST_CASE("a readings table with a line for each approach says approach, unit and run, and its rows their target") {
    const auto pages = spoken_pages(spoken_source / "tests/golden/awkward/one-direction.json");
    const auto tables = readings_tables(pages);
    REQUIRE(!tables.empty());
    for (const ReadingsTable& table : tables) {
        REQUIRE(table.heads.size() == 2);
        const std::string words = testing::words_of(table.heads[0]->items);
        CHECK(words.find("Target / mm") != std::string::npos);
        CHECK(words.find("Reading in run / µ") != std::string::npos);
        CHECK(testing::groups_where(table.heads[0]->items, [](const frame::Group& group) {
                  return group.alternative == "Approach";
              }).size() == 1);
        for (const frame::Group* row : table.rows) CHECK(spans_saying(row->items, "positive") + spans_saying(row->items, "negative") == 1);
    }
}

TEST_CASE("the alternative text of a positioning figure names its strips and the verdict") {
    const auto pages = spoken_pages(spoken_source / "sample-results/short-axis.json");
    const auto figures = testing::figures_in(pages.at(1).items);
    REQUIRE(figures.size() == 2);
    CHECK_THAT(figures[1]->alternative, Catch::Matchers::Contains("Means of ten runs of EXX") && Catch::Matchers::Contains("Air, "));
    for (const std::string words : {"Reversal of EXX", "Repeatability 4 s of EXX", "Verdict: Inside"})
        CHECK_THAT(figures[0]->alternative, Catch::Matchers::Contains(words));
}
