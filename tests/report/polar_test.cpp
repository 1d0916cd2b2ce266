#include "report/blocks/blocks.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

support::Reported table_axis(const std::vector<double>& targets, const std::vector<double>& readings) {
    return {.document =
                support::document(support::series("ECC", targets, {readings}, {readings}, units::arcsecond, units::position_degree))};
}

}  // namespace

TEST_CASE("the polar page says where the extremes stand and how well the circle closes") {
    const auto reported = table_axis({0, 90, 200, 270, 360}, {0, 4, 1, -3, 0.25});
    const auto pages = report::polar_openings(reported.subject());
    REQUIRE(pages.size() == 1);
    CHECK(
        pages[0].opening.lead.words() ==
        "The mean bi-directional deviation runs from \u22123.00″ at 270° to 4.00″ at 90°; 0°\u00a0and\u00a0360° differ by 0.25″.");
    CHECK_THAT(pages[0].plot.alternative,
               Contains("Polar plot of the same deviations, 0 degrees to the right, positive positions counter-clockwise"));
}

TEST_CASE("principal positions are the quarters of the turn; one that is no target is not measured, never interpolated") {
    const auto reported = table_axis({0, 90, 200, 270, 360}, {0, 4, 1, -3, 0.25});
    const std::string words = support::words_of(report::polar_openings(reported.subject()).at(0).sections);
    CHECK_THAT(words, Contains("Principal positions") && Contains("90°|2|4.000|4.000|4.000|0.000|") &&
                          Contains("180°|not measured|\u2013|\u2013|\u2013|\u2013|"));
    CHECK_THAT(words, Contains("360°|5|0.250|"));
}

TEST_CASE("two turns close over the whole of the travel and number their quarters on") {
    const auto reported = table_axis({-360, -180, 0, 180, 360}, {1, 2, 0, 3, -1});
    const auto pages = report::polar_openings(reported.subject());
    CHECK_THAT(pages.at(0).opening.lead.words(), Contains("\u2212360°\u00a0and\u00a0360° differ by 2″"));
    CHECK_THAT(support::words_of(pages[0].sections), Contains("\u2212180°|2|") && Contains("0°|3|"));
}

TEST_CASE("linear axes and short swings keep their linear form alone") {
    CHECK(report::polar_openings(table_axis({0, 30, 60, 90}, {0, 1, 2, 3}).subject()).empty());
    const support::Reported linear{.document = support::document(support::series("EXX", {0, 100, 200}, {{0, 1, 2}}, {{0, 1, 2}}))};
    CHECK(report::polar_openings(linear.subject()).empty());
}
