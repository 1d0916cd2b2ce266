#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "layouts/layout.hpp"
#include "support/frame_checks.hpp"
#include "support/small_documents.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

using namespace wayfolio;
using testing::small::Json;
namespace small = testing::small;

namespace {

std::string entry_word(const std::string& word, int number) { return word + std::to_string(number) + "."; }

/// A list of the document, as long as it may be (render/document/read/count_limits.hpp), with a word of its own in each entry.
struct LongList {
    std::string word;
    int count;
    void (*add)(Json& document, const std::string& word);
};

const std::vector<LongList>& long_lists() {
    static const std::vector<LongList> lists = {
        {"Person", 50,
         [](Json& json, const std::string& word) {
             json["job"]["people"].push_back({{"role", "measured by"}, {"name", word}});
         }},
        {"remark", 100, [](Json& json, const std::string& word) { json["job"]["remarks"].push_back(word); }},
        {"street", 20, [](Json& json, const std::string& word) { json["job"]["customer"]["address"].push_back(word); }},
        {"house", 20, [](Json& json, const std::string& word) { json["job"]["laboratory"]["address"].push_back(word); }},
        {"Sensor", 100,
         [](Json& json, const std::string& word) {
             json["instruments"].push_back(
                 {{"id", "id-of-" + word}, {"kind", "temperature sensor"}, {"serial", word}, {"certificate", "C" + word}});
         }},
        {"Check", 500,
         [](Json& json, const std::string& word) {
             json["setup"]["checks"].push_back({{"name", word}, {"axis", "X"}, {"reading", 0.1}, {"at_most", 0.5}, {"unit", "mm"}});
         }},
        {"Share", 100,
         [](Json& json, const std::string& word) {
             json["uncertainty"]["contributors"].push_back({{"name", word}, {"applies_to", {"EXX"}}, {"unit", "um"}, {"standard", 0.01}});
         }},
        {"agreement", 100, [](Json& json, const std::string& word) { json["evaluation"]["agreed"].push_back(word); }},
        {"note", 100, [](Json& json, const std::string& word) { json["series"][0]["remarks"].push_back(word); }},
    };
    return lists;
}

Json with_every_list_full() {
    Json json = small::positioning();
    json["job"]["customer"]["name"] = "Customer";
    json["job"]["laboratory"]["name"] = "Laboratory";
    json["machine"] = {{"axes", {{{"name", "X"}, {"kind", "linear"}}}}};
    for (const LongList& list : long_lists())
        for (int i = 0; i < list.count; ++i) list.add(json, entry_word(list.word, i));
    return json;
}

struct Drawn {
    std::string words;
    testing::Findings faults;
};

Drawn drawn(const Json& json) {
    const document::Document document = document::read_document(json.dump(), "full.json", [](const std::string&) { return std::string(); });
    const evaluate::Evaluation evaluation = evaluate::evaluate(document);
    const layouts::Layout layout = layouts::read_layout("report", "A4");
    Drawn all;
    for (const frame::Frame& page : produce::report_pages({document, evaluation, layout, testing::shaper()})) {
        for (std::string& fault : testing::page_faults(page)) all.faults.push_back("page " + page.label + ": " + std::move(fault));
        all.words += " " + testing::words_of(page.items);
    }
    return all;
}

testing::Findings lost(const Drawn& report, const std::string& word, int count) {
    testing::Findings found;
    for (int i = 0; i < count; ++i)
        if (report.words.find(" " + entry_word(word, i)) == std::string::npos) found.push_back(entry_word(word, i) + " is lost");
    return found;
}

/// Fifteen errors in as many states as a document may have: as many series as it may have.
Json with_every_series() {
    Json series = Json::array();
    for (const char* error : {"EXX", "EYX", "EZX", "EAX", "EBX", "ECX", "EYY", "EXY", "EZY", "EAY", "EBY", "ECY", "EZZ", "EXZ", "EYZ"})
        for (int state = 0; state < 20; ++state) {
            Json one = small::x_series();
            one["id"] = fmt::format("{}-{}", error, state);
            one["error"] = error;
            one["state"] = entry_word("state ", state) + " of the bed";
            if (error[1] == 'A' || error[1] == 'B' || error[1] == 'C') one["unit"] = "urad";
            one["remarks"] = {entry_word(std::string("series-") + error + "-", state)};
            series.push_back(one);
        }
    return small::document(series);
}

}  // namespace

TEST_CASE("a report of lists as long as they may be loses none of their entries", "[slow]") {
    const Drawn report = drawn(with_every_list_full());
    CHECK(report.faults == testing::Findings{});
    for (const LongList& list : long_lists()) CHECK(lost(report, list.word, list.count) == testing::Findings{});
}

TEST_CASE("a report of as many series in as many states as there may be loses none", "[slow]") {
    const Json json = with_every_series();
    REQUIRE(json["series"].size() == 300);
    const Drawn report = drawn(json);
    CHECK(report.faults == testing::Findings{});
    for (const Json& series : json["series"])
        if (report.words.find(series["remarks"][0].get<std::string>()) == std::string::npos) {
            CAPTURE(series["id"]);
            CHECK(false);
        }
    CHECK(lost(report, "state ", 20) == testing::Findings{});
}
