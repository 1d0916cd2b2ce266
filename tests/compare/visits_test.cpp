#include "compare/comparison.hpp"
#include "document/read_document.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;
using Catch::Matchers::Contains;

TEST_CASE("of two visits what the old one left is set beside what the new one found, and that is said") {
    const auto read = [] {
        return document::read_document(std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/long-axis.json");
    };
    const document::Document before = read();
    document::Document after = read();
    after.job.number = "another visit";
    const auto evaluation = evaluate::evaluate(before);
    const compare::Side was{"old.json", before, evaluation}, now{"new.json", after, evaluation};
    const auto apart = compare::compare(was, now);
    CHECK_THAT(compare::comparison_text(apart), Contains("--left-and-found"));
    const auto comparison = compare::compare(was, now, compare::Beside::LeftAndFound);
    CHECK(comparison.series_compared == 6);
    CHECK(comparison.paired_by_error.size() == 6);
    for (const auto& pair : comparison.paired_by_error) {
        CHECK(pair.state_was == "as-left");
        CHECK(pair.state_now == "as-found");
    }
    CHECK_THAT(compare::comparison_text(comparison), Contains("Compared: as-left of the old with as-found of the new"));
    CHECK_FALSE(compare::compare(was, was).visits_apart);
}
