#include "document/read_document.hpp"
#include "report/blocks/blocks.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

support::Reported reported_sample(const std::string& name) {
    return {.document = document::read_document(std::string(WAYFOLIO_SOURCE_FOLDER) + "/sample-results/" + name)};
}

}  // namespace

TEST_CASE("each raised hint stands with its size, statistic, p and level, and is called a hint") {
    const auto reported = reported_sample("two-axes.json");
    const auto made = report::hints(reported.subject());
    CHECK_THAT(made.opening.lead.words(), Contains(" hints"));
    CHECK_THAT(made.opening.body.words(), Contains("Hints are not results: they change no number and remove no reading."));
    const std::string words = support::words_of(made.sections);
    CHECK_THAT(words, Contains("Series|Hint|statistic|p|level|"));
    // The generator leaves a slip of 5.6 µm in the fifth run at the fourth target.
    CHECK_THAT(words, Contains("EXX, as found|The reading of run 3 positive at target 4 differs by +"));
    CHECK_THAT(words, Contains("farthest reading over the pooled s, Bonferroni|"));
    CHECK_THAT(words, Contains("p of series|drift|growth|run apart|jump|outlier|exchange|count|periodic|"));
}

TEST_CASE("a document that switches hints off has none in its report") {
    auto reported = reported_sample("two-axes.json");
    reported.document.evaluation.hints = false;
    reported.evaluation = evaluate::evaluate(reported.document);
    CHECK(report::hints(reported.subject()).sections.empty());
}

TEST_CASE("readings without a hint say so, and every test that was made keeps its p") {
    auto reported = reported_sample("two-axes.json");
    std::erase_if(reported.document.series, [](const auto& series) { return series.id == "x-exx-found"; });
    reported.document.compensation.clear();
    reported.evaluation = evaluate::evaluate(reported.document);
    const auto made = report::hints(reported.subject());
    CHECK(made.opening.lead.words() ==
          "The readings give no hint of drift, of a periodic error, or of a run or reading that differs from the others.");
    CHECK(made.sections.size() == 1);
    CHECK(std::get<report::PlainTable>(made.sections[0].parts[0]).rows.size() == 3);
}

TEST_CASE("a hint of an error that was measured in two states says in which") {
    const auto reported = reported_sample("long-axis.json");
    CHECK(report::hints(reported.subject()).opening.lead.words() ==
          "Two hints: EXX as found grows from run to run and EXX as left grows from run to run.");
}
