#include "produce/comparison.hpp"

#include "frame/bounds.hpp"
#include "document/read_document.hpp"
#include "report/blocks/tables/tables.hpp"
#include "support/frame_checks.hpp"
#include "support/frame_parts.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>
#include <utility>

using namespace wayfolio;
using Catch::Matchers::Contains;
using Json = nlohmann::json;
using support::file_bytes;
using support::run;
using support::TemporaryFolder;

namespace {

const std::filesystem::path source_root = WAYFOLIO_SOURCE_FOLDER;

document::Document document_of(const Json& json) {
    return document::read_document(json.dump(), "edited.json",
                                   [](const std::string& name) { return file_bytes(source_root / "sample-results" / name); });
}

Json sample(const std::string& name) { return Json::parse(file_bytes(source_root / "sample-results" / name)); }

/// Two results with all that a drawing of their comparison refers to.
struct Two {
    document::Document was, now;
    evaluate::Evaluation evaluation_was, evaluation_now;
    layouts::Layout layout;

    Two(const Json& old_json, const Json& new_json, const std::string& paper = "A4")
        : was(document_of(old_json)),
          now(document_of(new_json)),
          evaluation_was(evaluate::evaluate(was)),
          evaluation_now(evaluate::evaluate(now)),
          layout(layouts::read_layout("report", paper)) {}
    [[nodiscard]] produce::ComparisonDrawing drawing() const {
        return {was, now, evaluation_was, evaluation_now, layout, testing::shaper(), {{"wayfolio", "0"}}};
    }
    [[nodiscard]] compare::Comparison changes() const {
        return compare::compare({"old", was, evaluation_was}, {"new", now, evaluation_now});
    }
    [[nodiscard]] std::vector<frame::Frame> pages() const { return produce::comparison_pages(drawing()); }
};

std::string words_on(const std::vector<frame::Frame>& pages) {
    std::string words;
    for (const auto& page : pages) words += testing::words_of(page.items);
    // A line ends with its blank.
    std::erase_if(words, [last = ' '](char letter) mutable { return std::exchange(last, letter) == ' ' && letter == ' '; });
    return words;
}

/// Every group with this id.
std::vector<const frame::Group*> groups(const std::vector<frame::Frame>& pages, const std::string& id) {
    std::vector<const frame::Group*> found;
    for (const auto& page : pages)
        frame::walk(page.items, [&](const frame::Group& group) {
            if (group.id == id) found.push_back(&group);
        });
    return found;
}

/// The sample analysed again: one limit tightened, and one reading of the first series taken out.
Json analysed_again() {
    Json json = sample("short-axis.json");
    Json& series = json["series"][0];
    series["runs"][0]["excluded"].push_back({{"target", 3}, {"reason", "door opened"}});
    for (Json& tolerance : series["tolerances"])
        if (tolerance["parameter"] == "A") tolerance["limit"] = 1;
    return json;
}

}  // namespace

TEST_CASE(
    "pages of a re-analysis name the reading, the limit, the verdict and every parameter that moved, and draw the new means over the old") {
    const Two two(sample("short-axis.json"), analysed_again());
    const auto pages = two.pages();
    const std::string words = words_on(pages);
    CHECK_THAT(words, Contains("What changed") && Contains("One reading more is excluded") && Contains("EXX, as found: limit for A") &&
                          Contains("Outside"));
    CHECK_THAT(words, Contains("No parameter changed: Straightness error EYX"));
    CHECK_THAT(words, Contains("one verdict changed: positioning (EXX), from inside to outside."));
    // Only the first series moved: one figure, with two pale lines for the two directions of the old.
    const auto pale = groups(pages, "pale-means");
    REQUIRE(pale.size() == 1);
    CHECK(pale.front()->items.size() == 2);
}

TEST_CASE("old and new curves share one scale that holds both") {
    Json now = sample("short-axis.json");
    for (Json& one : now["series"][0]["runs"])
        for (Json& reading : one["deviations"])
            if (reading.is_number()) reading = reading.get<double>() * 3;
    const Two two(sample("short-axis.json"), now);
    const auto pages = two.pages();
    // Either would stand outside the figure were the scale only the other's.
    for (const char* id : {"pale-means", "mean-positive", "mean-negative"}) {
        const auto figures = groups(pages, two.now.series[0].id);
        REQUIRE(figures.size() == 1);
        // The figure of how far the means moved has such curves, too.
        const auto found = testing::groups_where(figures.front()->items, [&](const frame::Group& group) { return group.id == id; });
        REQUIRE(found.size() == 1);
        REQUIRE(figures.front()->box);
        const frame::Rect curves = *frame::bounds(found.front()->items), box = *figures.front()->box;
        CHECK(curves.top >= box.top);
        CHECK(curves.bottom() <= box.bottom());
    }
    CHECK_THAT(groups(pages, two.now.series[0].id).front()->alternative,
               Contains("over those of the old") && Contains("New:") && Contains("Old:"));
}

TEST_CASE("as found of one year beside as left of another, on both papers: nothing off the page, no texts over each other") {
    const Json all = sample("long-axis.json");
    Json was = all, now = all;
    const auto keep = [](Json& json, const std::string& state) {
        Json kept = Json::array();
        for (const Json& series : json["series"])
            if (series["state"] == state) kept.push_back(series);
        json["series"] = kept;
        for (const char* by_series : {"compensation", "squareness", "uncertainty"}) json.erase(by_series);
    };
    keep(was, "as-found");
    keep(now, "as-left");
    for (const std::string paper : {"A4", "Letter"}) {
        const Two two(was, now, paper);
        const auto pages = two.pages();
        for (const auto& page : pages) {
            CHECK(testing::page_faults(page) == testing::Findings{});
        }
        CHECK(groups(pages, "pale-means").size() == two.now.series.size());
        CHECK_THAT(words_on(pages), Contains("readings have other values") && Contains("the only one of the same error"));
    }
}

TEST_CASE("pages tell a squareness that moved, and local straightness and tool point in the tables of their series") {
    Json now = sample("two-axes.json");
    now["squareness"][0]["square"]["error_urad"] = -4.8;
    const std::string words = words_on(Two(sample("two-axes.json"), now).pages());
    CHECK_THAT(words, Contains("One of ") && Contains("most changed the squareness of X and Y, as found") &&
                          Contains("Squareness of X and Y EC0Y , as found"));
    Json bent = sample("short-axis.json");
    for (Json& series : bent["series"])
        if (series["id"] == "x-eyx-found") series["runs"][0]["deviations"][4] = 40;
    const Two two(sample("short-axis.json"), bent);
    const auto pages = two.pages();
    for (const auto& page : pages) CHECK(testing::page_faults(page) == testing::Findings{});
    CHECK_THAT(words_on(pages), Contains("Local straightness error over 300 mm, end-point chord") &&
                                    Contains("Straightness error, at the functional point"));
}

TEST_CASE("of what changed each limit stands once, a local straightness by the line that it is judged about") {
    Json now = sample("short-axis.json");
    for (Json& series : now["series"])
        if (series["id"] == "x-eyx-found") series["runs"][0]["deviations"][4] = 40;
    const Two two(sample("short-axis.json"), now);
    const report::Subject subject(two.now, two.evaluation_now, two.layout);
    const auto section = report::headline_changes_section(subject, two.changes(), std::nullopt);
    REQUIRE(section);
    std::vector<std::string> names;
    for (const auto& row : std::get<report::PlainTable>(section->parts[0]).rows) names.push_back(row[0].words());
    CHECK(names.size() == two.evaluation_now.decisions.size());
    CHECK(std::set<std::string>(names.begin(), names.end()).size() == names.size());
}

TEST_CASE("a result names the changes that moved it by their numbers, and how far the means moved is drawn") {
    Json now = sample("short-axis.json");
    now["machine"]["controller"] = "another";  // 1: moves nothing
    for (Json& run : now["series"][0]["runs"]) run["deviations"][12] = run["deviations"][12].get<double>() + 2;
    const Two two(sample("short-axis.json"), now);
    const compare::Comparison changes = two.changes();
    const auto causes = compare::causes({"old", two.was, two.evaluation_was}, {"new", two.now, two.evaluation_now}, changes);
    const report::Subject subject(two.now, two.evaluation_now, two.layout);
    const auto section = report::headline_changes_section(subject, changes, causes);
    const auto& table = std::get<report::PlainTable>(section.value().parts[0]);
    CHECK(table.columns[7].head == "because of");
    CHECK(table.rows.front()[7].words() == "2");            // A of EXX
    CHECK(table.rows.back()[7].words() == report::no_value);  // an angle
    const auto pages = two.pages();
    const auto moved = groups(pages, "moved-x-exx-found");
    REQUIRE(moved.size() == 1);
    CHECK(groups({pages.front()}, "moved-x-exx-found").size() == 1);  // below what moved it
    CHECK_THAT(moved.front()->alternative, Contains("the most by 2.00\u202fµm at 1\u202f600\u202fmm, positive approach"));
    CHECK_THAT(words_on(pages), Contains("Because of: the numbered changes"));
}

TEST_CASE("what a change did to a result is drawn on the scale of its limit: now with its U, and before") {
    Json now = sample("short-axis.json");
    for (Json& series : now["series"])
        if (series["id"] == "x-exx-found") series["tolerances"][0]["limit"] = 10;
    REQUIRE(now["series"][0]["tolerances"][0]["parameter"] == "A");
    for (Json& run : now["series"][0]["runs"]) run["deviations"][12] = run["deviations"][12].get<double>() + 2;
    const Two two(sample("short-axis.json"), now);
    const report::Subject subject(two.now, two.evaluation_now, two.layout);
    const auto section = report::headline_changes_section(subject, two.changes(), std::nullopt);
    const auto& table = std::get<report::PlainTable>(section.value().parts[0]);
    REQUIRE(table.gauges.size() == table.rows.size());
    const auto A = [](const evaluate::Evaluation& evaluation) {
        return evaluate::value_of(evaluate::find_parameter(evaluation.series[0], "A")->value)->in(units::micrometre);
    };
    const auto& gauge = table.gauges[0].value();
    CHECK(gauge.changed);
    CHECK(gauge.value_of_limit == Approx(A(two.evaluation_now) / 10));
    CHECK(gauge.was_of_limit.value() == Approx(A(two.evaluation_was) / 10));
    CHECK(gauge.value_of_limit > *gauge.was_of_limit);
    const auto& unchanged = table.gauges.back().value();  // an angle
    CHECK_FALSE(unchanged.changed);
    CHECK_FALSE(unchanged.was_of_limit);
    CHECK(groups(two.pages(), "before").size() ==
          static_cast<std::size_t>(std::ranges::count_if(table.gauges, [](const auto& one) { return one && one->was_of_limit; })));
}

TEST_CASE("where nothing differs the page says so, and there is no figure") {
    const Two two(sample("short-axis.json"), sample("short-axis.json"));
    const auto pages = two.pages();
    CHECK(pages.size() == 1);
    CHECK_THAT(words_on(pages), Contains("Nothing differs"));
    CHECK(groups(pages, "pale-means").empty());
}

TEST_CASE("a comparison carries both documents without what they mark internal, and every compared number") {
    Json was = sample("smallest.json"), now = was;
    was["internal"] = {{"remarks", {"the customer must not read this"}}};
    now["series"][0]["runs"][0]["deviations"][1] = 9.9;
    const Two two(was, now);
    const std::string pdf = produce::comparison_pdf(two.drawing());
    CHECK(pdf == produce::comparison_pdf(two.drawing()));
    const TemporaryFolder folder;
    const std::string file = folder.file("changes.pdf", pdf), into = folder / "out";
    std::filesystem::create_directory(into);
    REQUIRE(run("pdfdetach -saveall -o " + into + " " + file).code == 0);
    const std::string old_kept = file_bytes(into + "/wayfolio-old-result.json");
    CHECK_THAT(old_kept, !Contains("must not read"));
    CHECK(file_bytes(into + "/wayfolio-new-result.json") == two.now.bytes);
    const Json numbers = Json::parse(file_bytes(into + "/wayfolio-comparison.json"));
    CHECK(numbers["readings"].size() == 1);
    CHECK_THAT(numbers["changes"].dump(), !Contains("must not read"));
    CHECK(Json::parse(file_bytes(into + "/wayfolio-inputs.json"))["documents"].size() == 2);
}

TEST_CASE("a long text that changed stands in full, and of a long list the page says how many more entries there are") {
    Json now = sample("short-axis.json");
    std::string title = "Title";
    for (int i = 1; i <= 40; ++i) title += " word" + std::to_string(i);
    now["job"]["title"] = title;
    Json added = now["series"][0];
    added["id"] = "after";
    added["state"] = "after-repair";
    now["series"].push_back(added);
    const std::string words = words_on(Two(sample("short-axis.json"), now).pages());
    for (int i = 1; i <= 40; ++i) CHECK_THAT(words, Contains("word" + std::to_string(i)));
    CHECK_THAT(words, !Contains("...") && !Contains("\u2026"));
}
