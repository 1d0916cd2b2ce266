#include "produce/produce.hpp"

#include "layouts/layout.hpp"
#include "document/read_document.hpp"
#include "input/problem.hpp"
#include "support/frame_checks.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

struct Drawn {
    document::Document document;
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    layouts::Layout layout = layouts::read_layout("report", "A4");

    [[nodiscard]] produce::Drawing drawing() const { return {document, evaluation, layout, testing::shaper()}; }
};

Drawn drawn(const std::string& document) {
    return {.document = document::read_document(std::string(WAYFOLIO_SOURCE_FOLDER) + "/" + document)};
}

std::string all_words(const std::vector<frame::Frame>& pages) {
    std::string words;
    for (const auto& page : pages) words += testing::words_of(page.items);
    return words;
}

}  // namespace

TEST_CASE("the report of two axes has pages for squareness, tool point, compensation, hints and the beam's alignment") {
    const std::string words = all_words(produce::report_pages(drawn("sample-results/two-axes.json").drawing()));
    CHECK_THAT(words, Contains("Squareness error of X and Y, as found") && Contains("reference square") && Contains("By reference line"));
    CHECK_THAT(words, Contains("Functional point of X, as found") && Contains("at the functional point, additional"));
    CHECK_THAT(words, Contains("statistic") && Contains("Tests made"));
    CHECK_THAT(words, Contains("Correction at each point of axis X") && Contains("Beam against axis") && Contains("cosine error / µm") &&
                          Contains("exceeds it") &&
                          Contains("not resolved"));
    CHECK_THAT(words, Contains("common practice, no source"));
}

TEST_CASE("a layout without hints has no page of hints") {
    Drawn two = drawn("sample-results/two-axes.json");
    std::erase(two.layout.blocks, "hints");
    CHECK_THAT(all_words(produce::report_pages(two.drawing())), !Contains("Tests made"));
}

TEST_CASE("refused compensations share a page, and every one says why") {
    const auto pages = produce::report_pages(drawn("tests/golden/awkward/compensation-tables.json").drawing());
    const std::string words = all_words(pages);
    CHECK_THAT(words, Contains("The reference 600") && Contains("outside the measured range \u2212100 to 400"));
    CHECK_THAT(words, Contains("Fewer than two targets have readings in the negative approach."));
    const auto refused_on = [&](const frame::Frame& page) {
        return testing::words_of(page.items).find("Reasons for no table") != std::string::npos;
    };
    CHECK(std::ranges::count_if(pages, refused_on) == 1);
}

TEST_CASE("figures round the circle, at the tool point and of two axes are drawn by their names") {
    const auto named = [](const Drawn& of, const std::string& name) {
        const auto names = produce::figure_names(of.document, of.evaluation);
        const auto found = std::ranges::find(names, name, &produce::FigureName::name);
        REQUIRE(found != names.end());
        return testing::words_of(produce::figure(of.drawing(), *found).items);
    };
    CHECK_THAT(named(drawn("sample-results/rotary-axis.json"), "polar"), Contains("polar plot") && Contains("270°"));
    const Drawn two = drawn("sample-results/two-axes.json");
    CHECK_THAT(named(two, "tool-point"), Contains("at the functional point") && Contains("Deviation, over as measured / µm"));
    CHECK_THAT(named(two, "squareness"), Contains("Squareness error of X and Y") && Contains("reference square"));
}

namespace {

std::string straight(const std::string& id, const std::string& error) {
    return R"({"id": ")" + id + R"(", "error": ")" + error + R"(", "unit": "um", "position_unit": "mm", "targets": [0, 100, 200, 300],
        "runs": [{"approach": "positive", "deviations": [0, 1, 2, 1.5]}, {"approach": "negative", "deviations": [0.2, 1.1, 2.1, 1.5]}]})";
}

Drawn drawn_text(const std::string& members) {
    return {.document = document::read_document(R"({"format": "wayfolio-result", "version": 1, )" + members + "}", "job.json",
                                                [](const std::string& name) -> std::string { throw input::InputMissing(name, "no"); })};
}

}  // namespace

TEST_CASE("names of series that are the same when joined do not make one link destination of two") {
    const auto squares =
        drawn_text(R"("series": [)" + straight("a-b", "EYX") + "," + straight("c", "EXY") + "," + straight("a", "EYX") + "," +
                   straight("b-c", "EXY") +
                   R"(], "squareness": [{"axes": ["X", "Y"], "series": ["a-b", "c"]},
                       {"axes": ["X", "Y"], "series": ["a", "b-c"]}])");
    CHECK_FALSE(produce::report_pdf(squares.drawing()).empty());
    std::string angle = straight("pitch", "EBX");
    angle.replace(angle.find("\"um\""), 4, "\"urad\"");
    const auto moved = drawn_text(R"("setup": {"measurement_lines": [{"axis": "X", "offset_to_tool_point_mm": [0, 0, 150]}]},
                                      "series": [)" +
                                  straight("x", "EXX") + "," + straight("tool-point-x", "EZX") + "," + angle + "]");
    CHECK_FALSE(produce::report_pdf(moved.drawing()).empty());
}

TEST_CASE("a trace that turns back, or runs backwards, stays on the page") {
    for (const char* samples : {"[[0, 0], [400, 2], [50, 1]]", "[[400, 0], [200, 2], [0, 1]]", "[[0, 0], [400, 2], [0, 1]]"}) {
        for (const char* error : {"EXX", "EYX"}) {
            const auto job = drawn_text(R"("series": [{"id": "x", "error": ")" + std::string(error) +
                                        R"(", "unit": "um", "position_unit": "mm", "trace": {"samples": )" + samples + "}}]");
            for (const auto& page : produce::report_pages(job.drawing())) CHECK(testing::page_faults(page) == testing::Findings{});
        }
    }
}
