#include "document/read_document.hpp"
#include "layouts/layout.hpp"
#include "produce/produce.hpp"
#include "support/frame_checks.hpp"
#include "support/text_helpers.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

/// Units as they stand on pages and in figures, words and axes alike.
using namespace wayfolio;

namespace {

struct InUnits {
    document::Document document;
    evaluate::Evaluation evaluation = evaluate::evaluate(document);
    layouts::Layout layout = layouts::read_layout("report", "A4");

    [[nodiscard]] produce::Drawing drawing() const { return {document, evaluation, layout, testing::shaper()}; }
};

InUnits in_units(const std::string& name) {
    return {document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "tests/golden/awkward" / name)};
}

/// The places of a unit behind a number or in a title; what a method or a standard is told in is no matter of the document.
std::vector<std::string> said_in(const std::string& words, const std::string& symbol) {
    std::vector<std::string> found;
    for (const std::string before : {"\u202f", "/ "})
        for (auto at = words.find(before + symbol); at != std::string::npos; at = words.find(before + symbol, at + 1)) {
            const std::size_t end = at + before.size() + symbol.size();
            const bool longer = end < words.size() && (words[end] == '/' || (words[end] >= 'a' && words[end] <= 'z'));
            const std::string before_it = words.substr(at < 60 ? 0 : at - 60, std::min<std::size_t>(at, 60));
            // The agreed form of a limit is told once in its own unit.
            if (!longer && before_it.find(" as agreed: ") == std::string::npos) found.push_back(words.substr(at < 30 ? 0 : at - 30, 40));
        }
    return found;
}

void check_unsaid(const std::string& name, const std::vector<std::string>& symbols) {
    const InUnits made = in_units(name);
    for (const auto& page : produce::report_pages(made.drawing())) {
        const std::string words = testing::words_of(page.items);
        for (const std::string& symbol : symbols) {
            INFO(name << ", page " << page.label << ", " << symbol);
            CHECK(said_in(words, symbol) == std::vector<std::string>{});
        }
    }
    for (const auto& figure : produce::figure_names(made.document, made.evaluation))
        for (const std::string& symbol : symbols) {
            INFO(name << ", figure " << figure.series << " " << figure.name << ", " << symbol);
            CHECK(said_in(testing::words_of(produce::figure(made.drawing(), figure).items), symbol) == std::vector<std::string>{});
        }
}

}  // namespace

TEST_CASE("an inch job is shown in inches and microinches, its angles in seconds of arc, on every page and in every figure") {
    check_unsaid("inch-job.json", {"µm", "mm", "m", "µrad"});
}

TEST_CASE("a rotary table in seconds of arc has no other unit of its angles, found against left least of all") {
    check_unsaid("rotary-found-and-left.json", {"µrad"});
}

TEST_CASE("a rotary table in degrees is shown in thousandths of them") { check_unsaid("rotary-in-degrees.json", {"µrad"}); }

TEST_CASE("a document whose angles are slopes has no other unit of them") { check_unsaid("millimetres-and-slopes.json", {"µrad"}); }

TEST_CASE("no limit and no result of the awkward documents prints as 0") {
    for (const std::string name : {"rotary-in-degrees.json", "tiny-values.json", "whole-micrometres.json", "inch-job.json"}) {
        const InUnits made = in_units(name);
        for (const auto& page : produce::report_pages(made.drawing())) {
            const std::string words = testing::words_of(page.items);
            INFO(name << ", page " << page.label);
            for (const std::string before : {"limit of ", "limit ", "\u00a0±\u202f", "is largest, "})
                for (auto at = words.find(before); at != std::string::npos; at = words.find(before, at + 1)) {
                    const std::string number = words.substr(at + before.size(), 12);
                    char* end = nullptr;
                    const double value = std::strtod(number.c_str(), &end);
                    INFO(before << number);
                    CHECK((end == number.c_str() || value != 0));
                }
        }
    }
}
