#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "layouts/layout.hpp"
#include "support/frame_checks.hpp"
#include "support/small_documents.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <sstream>

using namespace wayfolio;
using testing::small::Json;
namespace small = testing::small;

namespace {

/// "remark0 remark1 remark2": each word once, so that a lost one is told by its name.
std::string numbered(const std::string& word, int count) {
    std::string words;
    for (int i = 0; i < count; ++i) words += (i == 0 ? "" : " ") + word + std::to_string(i) + ".";
    return words;
}

/// Texts that stand below the last line of a page's content and are not its foot.
testing::Findings texts_over_the_foot(const frame::Frame& page, const layouts::PaperGrid& grid) {
    testing::Findings found;
    frame::walk(page.items, [&](const frame::GlyphRun& run) {
        const units::Paper y = run.origin.y, foot = grid.foot_baseline, line = grid.baseline_step;
        const bool in_foot = foot - units::point(1) < y && y < foot + line;
        if (y > grid.last_baseline + line && !in_foot) found.push_back("\"" + run.text + "\" stands over the foot of page " + page.label);
    });
    return found;
}

/// What a careful reader finds wrong with the report: faults of its pages, and which of the words are not there.
testing::Findings faults_of(const Json& json, const std::string& words, const std::string& layout_name = "report") {
    const document::Document document = document::read_document(json.dump(), "long.json", [](const std::string&) { return std::string(); });
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout(layout_name, "A4");
    testing::Findings found;
    std::string all;
    for (const frame::Frame& page : produce::report_pages({document, evaluation, layout, testing::shaper()})) {
        for (std::string& fault : testing::page_faults(page)) found.push_back("page " + page.label + ": " + std::move(fault));
        for (std::string& text : texts_over_the_foot(page, layout.grid())) found.push_back(std::move(text));
        frame::walk(page.items, [&](const frame::Group& group) {
            if (group.role == frame::Role::HeadCell && group.items.empty())
                found.push_back("page " + page.label + ": a head cell without words");
        });
        all += " " + testing::words_of(page.items);
    }
    std::istringstream wanted(words);
    for (std::string word; wanted >> word;)
        if (all.find(" " + word) == std::string::npos) found.push_back(word + " is lost");
    return found;
}

/// What is wrong with a summary that has no room for what `counted` says.
testing::Findings faults_of_summary(const Json& json, const std::string& counted) {
    testing::Findings found = faults_of(json, "", "summary");
    const document::Document document = document::read_document(json.dump(), "long.json", [](const std::string&) { return std::string(); });
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const auto pages = produce::report_pages({document, evaluation, layouts::read_layout("summary", "A4"), testing::shaper()});
    if (pages.size() != 1) found.push_back(std::to_string(pages.size()) + " pages");
    const std::string words = testing::words_of(pages[0].items);
    if (words.find("Not on this page") == std::string::npos || words.find(counted) == std::string::npos)
        found.push_back("not said: " + counted + ", but: " + words.substr(std::min(words.size(), words.find("Not on this page")), 200));
    return found;
}

const testing::Findings none;

}  // namespace

TEST_CASE("a remark and a method that are higher than a page go on over pages, and no word is lost") {
    Json json = small::positioning();
    const std::string remark = numbered("remark", 1200), method = numbered("method", 1300);
    json["job"]["remarks"] = {"short", remark, "shorter"};
    json["job"]["method"] = method;
    CHECK(faults_of(json, remark + " " + method) == none);
}

TEST_CASE("forty signatures fill as many pages as they need, in every layout that has them") {
    Json json = small::positioning();
    std::string words;
    for (int i = 0; i < 40; ++i) {
        const std::string role = "Role" + std::to_string(i) + ".", name = "Name" + std::to_string(i) + ".";
        json["job"]["people"].push_back({{"role", role}, {"name", name}});
        words += role + " " + name + " ";
    }
    CHECK(faults_of(json, words) == none);
    CHECK(faults_of_summary(json, "; 12 signatures. All are kept") == none);
}

TEST_CASE("a reason of replacement goes on in the margin of the next page") {
    for (const int length : {20, 60, 400}) {
        CAPTURE(length);
        Json json = small::positioning();
        const std::string reason = numbered("reason", length);
        json["job"]["replaces"] = {{"number", "K-1"}, {"revision", 1}, {"reason", reason}};
        CHECK(faults_of(json, reason) == none);
        if (length <= 60) CHECK(faults_of(json, reason, "summary") == none);
        else CHECK(faults_of_summary(json, ": 1 note on the issue. All are kept") == none);
    }
}

TEST_CASE("a notice and a number too long for head and foot stand in full once") {
    Json json = small::positioning();
    const std::string notice = numbered("notice", 80), number = numbered("number", 40);
    json["job"]["data_notice"] = notice;
    json["job"]["number"] = number;
    CHECK(faults_of(json, notice + " " + number) == none);
    CHECK(faults_of(json, notice + " " + number, "summary") == none);
    CHECK(faults_of(json, notice + " " + number, "figures") == none);
}

TEST_CASE("a figure's sheet grows with its notice") {
    Json json = small::positioning();
    const std::string notice = numbered("notice", 60);
    json["job"]["data_notice"] = notice;
    const document::Document document = document::read_document(json.dump(), "long.json", [](const std::string&) { return std::string(); });
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout("report", "A4");
    for (const produce::FigureName& name : produce::figure_names(document, evaluation)) {
        const frame::Frame sheet = produce::figure({document, evaluation, layout, testing::shaper()}, name);
        CHECK(testing::page_faults(sheet) == none);
        CHECK_THAT(testing::words_of(sheet.items), Catch::Contains("notice0. ") && Catch::Contains("notice59."));
    }
}

TEST_CASE("a short notice is not said again in full") {
    const testing::Findings lost = faults_of(small::positioning(), "shortened");
    CHECK(lost == testing::Findings{"shortened is lost"});
}

TEST_CASE("long facts beside the answer go on in the margin, and the map of quantities begins below them") {
    Json json = small::positioning();
    const std::string customer = numbered("customer", 70), place = numbered("place", 90), order = numbered("order", 200);
    json["job"]["customer"] = {{"name", customer}};
    json["job"]["place"] = place;
    json["job"]["order"] = order;
    CHECK(faults_of_summary(json, "; 2 lines on the job. All are kept") == none);
    CHECK(faults_of(json, customer + " " + place + " " + order) == none);
}

TEST_CASE("rows of a budget, a table and facts that are higher than a page go on over pages") {
    Json json = small::positioning();
    const std::string basis = numbered("basis", 700), name = numbered("Name", 300), check = numbered("Check", 900),
                      maker = numbered("maker", 900);
    json["uncertainty"]["contributors"] = {
        {{"name", name}, {"basis", basis}, {"applies_to", {"EXX"}}, {"unit", "um"}, {"standard", 0.4}},
        {{"name", "resolution"}, {"applies_to", {"EXX"}}, {"unit", "um"}, {"standard", 0.1}}};
    json["setup"]["checks"] = {{{"name", check}, {"axis", "X"}, {"reading", 0.1}, {"at_most", 0.5}, {"unit", "mm"}}};
    json["machine"] = {{"maker", maker}, {"axes", {{{"name", "X"}, {"kind", "linear"}}}}};
    CHECK(faults_of(json, basis + " " + name + " " + check + " " + maker) == none);
}

TEST_CASE("fifteen states of one error are named in full wherever they are named") {
    Json series = Json::array();
    std::string words;
    for (int i = 0; i < 15; ++i) {
        Json one = small::x_series();
        one["id"] = "x" + std::to_string(i);
        one["state"] = "state " + std::to_string(i) + " of the bed";
        series.push_back(one);
    }
    CHECK(faults_of(small::document(series), words) == none);
}

TEST_CASE("two states of twelve errors turn the page between their pairs and in the table of changes") {
    Json series = Json::array();
    for (const char* error : {"EXX", "EYX", "EZX", "EAX", "EBX", "ECX", "EYY", "EXY", "EZY", "EAY", "EBY", "ECY"})
        for (const char* state : {"as-found", "as-left"}) {
            Json one = small::x_series();
            one["id"] = std::string(error) + state;
            one["error"] = error;
            one["state"] = state;
            if (error[1] == 'A' || error[1] == 'B' || error[1] == 'C') one["unit"] = "urad";
            series.push_back(one);
        }
    CHECK(faults_of(small::document(series), "") == none);
}
