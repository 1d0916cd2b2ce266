#include "report/blocks/blocks.hpp"
#include "document/read_document.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

/// Straight lines of 10 µm/m along X and `slope` along Y against a square of one arc second more than 90 degrees.
support::Reported squared(double slope, double limit_urad = 20) {
    const support::Rows x{{0, 2, 4, 6}}, y{{0, 0.2 * slope, 0.4 * slope, 0.6 * slope}};
    auto along_x = support::series("EYX", {0, 200, 400, 600}, x, x), along_y = support::series("EXY", {0, 200, 400, 600}, y, y);
    along_x.id = "x-eyx";
    along_y.id = "y-exy";
    auto document = support::document(along_x);
    document.series.push_back(along_y);
    document::SquarenessRequest request{.axes = {"X", "Y"},
                                        .series = {"x-eyx", "y-exy"},
                                        .square_error_urad = 4.848137,
                                        .square_expanded_urad = {},
                                        .square_coverage_factor = {},
                                        .square_serial = "Q-1",
                                        .tolerance = {}};
    if (limit_urad > 0)
        request.tolerance =
            document::Tolerance{"squareness", "order", units::Deviation(units::microradian(limit_urad)), units::microradian, {}};
    document.squareness.push_back(request);
    return {.document = std::move(document)};
}

report::SquarenessOpening only(const support::Reported& reported) {
    const auto all = report::squareness_openings(reported.subject());
    REQUIRE(all.size() == 1);
    return all[0];
}

}  // namespace

TEST_CASE("squareness says the verdict first, then the angle with the side it errs to") {
    // Slopes of 10 and -20 µm/m, square +1 arc second: 14.848137 µrad, constructed, exact.
    const auto made = only(squared(-20));
    CHECK(made.opening.lead.words() ==
          "Squareness error of X and Y is inside its limit of 20\u202fµrad, with 5.2\u202fµrad to spare, no\u00a0U stated.");
    CHECK_THAT(made.opening.body.words(), Contains("is 14.8\u202fµrad more than 90°, which makes 14.8\u202fµm in 1\u202fm"));
    CHECK_THAT(made.opening.body.words(), Contains("least squares lines of both axes"));
    CHECK(made.drawing->lean == report::SquarenessDrawing::Lean::Open);
    CHECK(made.drawing->value.words() == "EC0Y\u00a0=\u00a0+14.8\u202fµrad");
    CHECK(made.drawing->angle.words() == "90°\u00a0+\u00a014.8\u202fµrad");
    CHECK_THAT(made.drawing->alternative, Contains("leaning away from +X"));
}

TEST_CASE("a squareness stands with its U, and with what both make over either travel", "[samples]") {
    const std::filesystem::path sample = std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "sample-results/two-axes.json";
    const support::Reported reported{.document = document::read_document(sample)};
    const auto* entry = evaluate::find_uncertainty(reported.evaluation, reported.evaluation.squareness.at(0));
    REQUIRE(entry);
    const double value = std::abs(evaluate::value_of(reported.evaluation.squareness[0].value)->in(units::microradian));
    const double U = entry->expanded.in(units::microradian);
    CHECK(value == Approx(19.8).margin(0.05));
    CHECK(U == Approx(3.7).margin(0.05));
    const auto made = only(reported);
    CHECK(made.margin.at(0).words() == "19.8\u00a0±\u202f3.7\u202fµrad");
    // The X axis was read over 800 mm, Y over 500 mm: 19.8 x 0.8 = 15.8 and 19.8 x 0.5 = 9.9; 3.7 x 0.8 = 3.0 and 3.7 x 0.5 = 1.8.
    CHECK_THAT(made.opening.body.words(), Contains("is 19.8\u202fµrad more than 90°, which makes 19.8\u202fµm in 1\u202fm: "
                                                   "15.8\u00a0±\u202f3.0\u202fµm over the 800\u202fmm of X and "
                                                   "9.9\u00a0±\u202f1.8\u202fµm over the 500\u202fmm of Y."));
    CHECK_THAT(support::words_of(made.sections), Contains("U\u00a0=\u00a01.0\u202fµrad, k\u00a0=\u00a02, serial Q-4"));
}

TEST_CASE("without a U a squareness says so, and what it makes stands to a tenth") {
    const auto made = only(squared(-20));
    REQUIRE(made.margin.size() >= 2);
    CHECK(made.margin[1].words() == "no uncertainty stated");
    CHECK_THAT(made.opening.body.words(), Contains("8.9\u202fµm over the 600\u202fmm of X and 8.9\u202fµm over the 600\u202fmm of Y."));
}

TEST_CASE("an angle of less than a right one leans to the first axis and has a negative sign") {
    const auto made = only(squared(30));  // -(10 + 30) + 4.848 = -35.152
    CHECK(made.opening.lead.words() ==
          "Squareness error of X and Y is outside its limit of 20\u202fµrad: 15.2\u202fµrad over, no\u00a0U stated.");
    CHECK_THAT(made.opening.body.words(), Contains("35.2\u202fµrad less than 90°"));
    CHECK(made.drawing->lean == report::SquarenessDrawing::Lean::Closed);
    CHECK(made.drawing->value.words() == "EC0Y\u00a0=\u00a0\u221235.2\u202fµrad");
}

TEST_CASE("the table of lines names both slopes, and the facts name formula, square and source of the limit") {
    const std::string words = support::words_of(only(squared(-20)).sections);
    CHECK_THAT(words, Contains("Reference line of both axes|slope of EYX / µm/m|slope of EXY / µm/m|EC0Y / µrad|"));
    CHECK_THAT(words, Contains("End-point|10.0|\u221220.0|14.8|") && Contains("Least squares|10.0|\u221220.0|14.8|") &&
                          Contains("Minimum zone|10.0|\u221220.0|14.8|"));
    CHECK_THAT(words, Contains("EC0Y\u00a0= \u2212(slope of EYX + slope of EXY) + error of the square"));
    CHECK_THAT(words, Contains("Reference square: error 4.8\u202fµrad (more than 90°), no uncertainty stated, serial Q-1"));
    CHECK_THAT(words, Contains("Source of the limit: order"));
}

TEST_CASE("squareness without a limit says the angle, and without an error of the square says that 0 was used") {
    auto reported = squared(-20, 0);
    reported.document.squareness[0].square_error_urad.reset();
    reported.evaluation = evaluate::evaluate(reported.document);
    const auto made = only(reported);
    CHECK(made.opening.lead.words() == "The angle between +X\u00a0and\u00a0+Y is 10.0\u202fµrad more than 90°; no limit is set.");
    CHECK_THAT(made.opening.body.words(), Contains("states no error of the square: 0 was used"));
}

TEST_CASE("squareness that cannot be had gives its reason and draws nothing") {
    auto reported = squared(-20);
    reported.document.squareness[0].series = {"y-exy", "x-eyx"};
    reported.evaluation = evaluate::evaluate(reported.document);
    const auto made = only(reported);
    CHECK_FALSE(made.drawing);
    CHECK_THAT(made.opening.lead.words(),
               Catch::Matchers::StartsWith("Squareness error of X and Y is not evaluated: the series \"y-exy\" is EXY, not EYX"));
}
