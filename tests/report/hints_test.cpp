#include "document/read_document.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "report/blocks/blocks.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

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
}

TEST_CASE("the tests that raised no hint are counted on the page, and each has its p in the evaluation that it names") {
    const auto reported = reported_sample("two-axes.json");
    CHECK_THAT(support::words_of(report::hints(reported.subject()).sections),
               Contains("divided among 31 tests") &&
                   Contains("The p of every test of every series is in the evaluation that this PDF carries."));
    const std::string json = evaluate::evaluation_json(reported.document, reported.evaluation);
    const auto written = nlohmann::json::parse(json);
    std::size_t with_p = 0;
    for (const auto& series : written.at("series")) {
        for (const char* name : {"trend", "growth", "run_apart", "run_jump", "readings_swapped", "missed_count", "periodic"})
            with_p += series.at("hints").at(name).contains("p") ? 1 : 0;
        for (const auto& outlier : series.at("hints").at("outliers")) with_p += outlier.contains("p") ? 1 : 0;
    }
    CHECK(with_p == 31);
}

TEST_CASE("a document that switches hints off has none in its report") {
    auto reported = reported_sample("two-axes.json");
    reported.document.evaluation.hints = false;
    reported.evaluation = evaluate::evaluate(reported.document);
    CHECK(report::hints(reported.subject()).sections.empty());
}

TEST_CASE("readings without a hint say so, and how many tests were made") {
    auto reported = reported_sample("two-axes.json");
    std::erase_if(reported.document.series, [](const auto& series) { return series.id == "x-exx-found"; });
    reported.document.compensation.clear();
    reported.evaluation = evaluate::evaluate(reported.document);
    const auto made = report::hints(reported.subject());
    CHECK(made.opening.lead.words() ==
          "The readings give no hint of drift, of a periodic error, or of a run or reading that differs from the others.");
    CHECK(made.sections.size() == 1);
    CHECK_THAT(support::words_of(made.sections), Contains("divided among 23 tests"));
}

TEST_CASE("a hint of an error that was measured in two states says in which") {
    const auto reported = reported_sample("long-axis.json");
    CHECK(report::hints(reported.subject()).opening.lead.words() ==
          "Two hints: EXX as found grows from run to run and EXX as left grows from run to run.");
}
