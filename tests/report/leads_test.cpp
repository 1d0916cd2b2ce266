#include "document/read_document.hpp"
#include "report/build.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;

namespace {

/// What the openings of a report say first, one a line.
std::string leads(const std::string& sample) {
    const support::Reported made{document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results" / sample)};
    std::string words;
    for (const report::Block& block : report::build(made.subject()).blocks) {
        if (const auto* panels = std::get_if<report::Panels>(&block))
            words += panels->opening.lead.words() + "\n" + panels->opening.body.words() + "\n";
        if (const auto* positioning = std::get_if<report::PositioningOpening>(&block)) words += positioning->opening.lead.words() + "\n";
    }
    return words;
}

}  // namespace

TEST_CASE("a lead names the limit before it says how far a value is from it") {
    const std::string words = leads("long-axis.json");
    CHECK_THAT(words,
               Catch::Contains(
                   "Straightness error of X in Z is undecided: 0.7\u202f\u00b5m under its limit of 8\u202f\u00b5m, less than\u00a0U."));
    CHECK_THAT(words,
               Catch::Contains("Positioning is undecided: 2.5\u202f\u00b5m under its limit of 12\u202f\u00b5m, less than\u00a0U."));
}

TEST_CASE("a page of straightness says where the axis is locally worst") {
    CHECK_THAT(leads("long-axis.json"),
               Catch::Contains("is locally largest over 300\u202fmm from ") && Catch::Contains("over 1\u202f000\u202fmm from "));
}
