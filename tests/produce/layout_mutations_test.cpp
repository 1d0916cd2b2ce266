#include "produce/produce.hpp"

#include "document/read_document.hpp"
#include "input/problem.hpp"
#include "layouts/layout.hpp"
#include "support/frame_checks.hpp"
#include "support/small_documents.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <random>

using namespace wayfolio;
using testing::small::Json;
namespace small = testing::small;

namespace {

struct Judged {
    document::Document document;
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
};

Judged judged_axis() {
    return {document::read_document(small::positioning().dump(), "axis.json", [](const std::string&) { return std::string(); })};
}

/// The shipped layout with all that it extends, as one file.
Json whole_layout(const std::string& name) {
    const std::string folder = std::string(WAYFOLIO_SOURCE_FOLDER) + "/layouts/";
    Json layout = Json::parse(support::file_bytes(folder + "report.json"));
    layout.update(Json::parse(support::file_bytes(folder + name + ".json")));
    layout.erase("extends");
    return layout;
}

/// Changes one value somewhere in the layout.
void mutate(Json& layout, std::mt19937& random) {
    const auto pick = [&](std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(random); };
    const Json places = layout.flatten();
    auto place = places.begin();
    std::advance(place, static_cast<std::ptrdiff_t>(pick(places.size())));
    const Json::json_pointer pointer(place.key());
    Json& value = layout[pointer];
    constexpr std::array factors{0.0, 0.01, 0.5, 0.8, 0.9, 1.1, 1.2, 1.5, 2.0, 10.0, 100.0, 1e6, -1.0};
    constexpr std::array words{"", "x", "ink", "#000000", "Letter"};
    if (pick(20) == 0 && !pointer.parent_pointer().empty() && layout[pointer.parent_pointer()].is_object())
        layout[pointer.parent_pointer()].erase(pointer.back());
    else if (value.is_number()) value = value.get<double>() * factors.at(pick(factors.size()));
    else value = words.at(pick(words.size()));
}

/// Draws the report with a layout of these bytes. @return whether the layout was taken
bool drawn_or_refused(const Judged& judged, const std::string& bytes) {
    try {
        const layouts::Layout layout = layouts::read_layout_bytes(bytes, "mutated.json", "");
        (void)produce::report_pdf({judged.document, judged.evaluation, layout, testing::shaper()});
        return true;
    } catch (const input::InputRejected& rejected) {
        CHECK_FALSE(rejected.problems().empty());
        return false;
    }
}

}  // namespace

TEST_CASE("a layout changed anywhere is drawn or refused by its faults", "[slow]") {
    const Judged judged = judged_axis();
    std::size_t drawn = 0, all = 0;
    for (const char* name : {"report", "summary", "figures"}) {
        const Json whole = whole_layout(name);
        for (unsigned seed = 0; seed < 60; ++seed) {
            std::mt19937 random(seed);
            Json layout = whole;
            for (std::size_t i = 0; i < 1 + seed % 3; ++i) mutate(layout, random);
            CAPTURE(name, seed, Json::diff(whole, layout).dump());
            CHECK_NOTHROW(drawn += drawn_or_refused(judged, layout.dump()));
            ++all;
        }
    }
    CHECK(drawn > all / 8);
    CHECK(drawn < all);
}

TEST_CASE("a layout at the ends of its ranges keeps its items on the page") {
    const Judged judged = judged_axis();
    const Json whole = whole_layout("report");
    const auto changed = [&](const Json& changes) {
        Json layout = whole;
        layout.merge_patch(changes);
        return layout.dump();
    };
    for (const std::string& bytes :
         {changed({{"type", {{"lead", {{"size", 40}, {"leading", 60}}}}}}), changed({{"type", {{"lead", {{"size", 6}, {"leading", 6}}}}}}),
          changed({{"type", {{"small", {{"size", 5}, {"leading", 6}}}, {"body", {{"size", 5}, {"leading", 6}}}}}}),
          changed({{"papers", {{"A4", {{"left", 82}, {"margin_left", 430}, {"margin_right", 540}}}}}}),
          changed({{"papers", {{"A4", {{"baseline_step", 20}}}}}}), changed({{"sizes", {{"main_plot_height", 72}, {"block_gap", 200}}}}),
          changed({{"sizes", {{"quantity_row_pitch", 100}, {"row_pitch", 60}, {"tight_row_pitch", 60}}}})}) {
        CAPTURE(bytes);
        const layouts::Layout layout = layouts::read_layout_bytes(bytes, "edge.json", "");
        for (const frame::Frame& page : produce::report_pages({judged.document, judged.evaluation, layout, testing::shaper()}))
            CHECK(testing::items_off_the_page(page) == testing::Findings{});
    }
}

TEST_CASE("a layout with nothing to show of a document is refused by name of its blocks") {
    const Judged judged = judged_axis();
    const layouts::Layout layout = layouts::read_layout_bytes(
        R"({"format": "wayfolio-layout", "version": 1, "name": "squares", "extends": "report", "blocks": ["squareness", "polar"]})",
        "squares.json", "");
    CHECK_THROWS_WITH(produce::report_pdf({judged.document, judged.evaluation, layout, testing::shaper()}),
                      Catch::Contains("axis.json") && Catch::Contains("squareness, polar"));
}
