#include "evaluate/series/geometry/geometry.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using document::ReferenceLine;

namespace {

document::Series straight_line(const std::string& symbol, const std::vector<double>& mm, const std::vector<double>& um) {
    auto series = support::series(symbol, mm, {um}, {um});
    series.id = symbol;
    series.instrument = "laser";
    return series;
}

struct Squared {
    document::Document document;
    std::vector<SeriesEvaluation> series;
    [[nodiscard]] SquarenessEvaluation result() const { return evaluate_squareness(document, series).at(0); }
    [[nodiscard]] double urad() const { return value_of(result().value)->in(units::microradian); }
};

Squared squared(const std::array<std::string, 2>& axes, const document::Series& first, const document::Series& second,
                double square_urad, ReferenceLine kind = ReferenceLine::LeastSquares) {
    Squared made;
    made.document.series = {first, second};
    made.document.evaluation.straightness_reference = kind;
    made.document.squareness.push_back({.axes = axes,
                                        .series = {first.id, second.id},
                                        .square_error_urad = square_urad,
                                        .square_expanded_urad = {},
                                        .square_coverage_factor = {},
                                        .square_serial = {},
                                        .tolerance = {}});
    for (const auto& series : made.document.series) made.series.push_back(evaluate_straightness(made.document, series));
    return made;
}

}  // namespace

TEST_CASE("an exact pair of lines and a square of one arc second give 14.848137 urad") {
    // Constructed: m1 = +10 urad, m2 = -20 urad, the square opens by 1" = 4.848137 urad: EC0Y = -(10 - 20) + 4.848137.
    for (const auto kind : {ReferenceLine::EndPoint, ReferenceLine::LeastSquares, ReferenceLine::MinimumZone}) {
        const auto made = squared({"X", "Y"}, straight_line("EYX", {0, 250, 500}, {0, 2.5, 5}),
                                  straight_line("EXY", {0, 150, 300}, {0, -3, -6}), units::arcsecond.in_base, kind);
        CHECK(made.urad() == Approx(14.848137).margin(5e-7));
        CHECK(made.result().symbol == "EC0Y");
        CHECK(made.result().beyond_right_angle->in(units::microradian) == Approx(14.848137).margin(5e-7));
    }
}

TEST_CASE("a noisy pair of lines gives another squareness by each kind of line") {
    // Constructed: slopes 10.085714 / -10.380952 (least squares), 10 / -10 (end points), 10 / -10.833333 (minimum zone).
    const auto x = straight_line("EYX", {0, 100, 200, 300, 400, 500}, {0, 1.2, 1.8, 3.1, 4.2, 5.0});
    const auto y = straight_line("EXY", {0, 60, 120, 180, 240, 300}, {0, -0.4, -1.3, -1.5, -2.6, -3.0});
    CHECK(squared({"X", "Y"}, x, y, 0, ReferenceLine::LeastSquares).urad() == Approx(0.295238).margin(5e-7));
    CHECK(squared({"X", "Y"}, x, y, 0, ReferenceLine::EndPoint).urad() == Approx(0).margin(1e-12));
    CHECK(squared({"X", "Y"}, x, y, 0, ReferenceLine::MinimumZone).urad() == Approx(0.833333).margin(5e-7));
    const auto lines = squared({"X", "Y"}, x, y, 0).result().lines;
    REQUIRE(lines.size() == 3);
    CHECK(lines[1].slope_first.in(units::microradian) == Approx(10.085714).margin(5e-7));
    CHECK(lines[2].slope_second.in(units::microradian) == Approx(-10.833333).margin(5e-7));
}

TEST_CASE("a rotation about Y closes its quadrant, about X it opens it, by the right-hand rule") {
    // Z leaning towards +X by 30 urad (EXZ slope +30) is a positive rotation about Y; Z leaning towards +Y is a negative one
    // about X.
    const auto xz = squared({"X", "Z"}, straight_line("EZX", {0, 500, 1000}, {0, 0, 0}),
                            straight_line("EXZ", {0, 500, 1000}, {0, 15, 30}), 0);
    CHECK(xz.result().symbol == "EB0Z");
    CHECK(xz.urad() == Approx(30));
    CHECK(xz.result().beyond_right_angle->in(units::microradian) == Approx(-30));
    const auto yz = squared({"Y", "Z"}, straight_line("EZY", {0, 500, 1000}, {0, 0, 0}),
                            straight_line("EYZ", {0, 500, 1000}, {0, 15, 30}), 0);
    CHECK(yz.result().symbol == "EA0Z");
    CHECK(yz.urad() == Approx(-30));
    CHECK(yz.result().beyond_right_angle->in(units::microradian) == Approx(-30));
}

TEST_CASE("series that are not the two straightnesses of the pair are refused with the reason") {
    const auto made =
        squared({"X", "Y"}, straight_line("EZX", {0, 250, 500}, {0, 2, 5}), straight_line("EXY", {0, 150, 300}, {0, -3, -6}), 0);
    CHECK(std::get<NotEvaluated>(made.result().value).reason.find("EYX") != std::string::npos);
    CHECK(made.result().lines.empty());
}

TEST_CASE("the uncertainty of a squareness joins both slopes and the square") {
    auto made = squared({"X", "Y"}, straight_line("EYX", {0, 500, 1000}, {0, 3, 0}), straight_line("EXY", {0, 250, 500}, {0, 0, 0}), 0);
    document::Instrument instrument;
    instrument.id = "laser";
    instrument.straightness = document::StatedCapability{0.4, 0.2};
    made.document.instruments.push_back(instrument);
    made.document.squareness[0].square_expanded_urad = 1.0;
    made.document.squareness[0].square_coverage_factor = 2;
    const auto all = evaluate_uncertainty(made.document, made.series);
    const auto found = std::find_if(all.begin(), all.end(), [](const auto& entry) { return entry.parameter == "squareness"; });
    REQUIRE(found != all.end());
    CHECK(found->series == "EYX");
    // Slope 1: residuals -1, 2, -1 over SUM 0.5 m^2, instrument 0.3 um over 1 m; slope 2: 0.25 um over 0.5 m; square 0.5 urad.
    CHECK(std::pow(found->standard->in(units::microradian), 2) == Approx(6 / 0.5 + 0.09 + 0.25 + 0.25));
}

TEST_CASE("squareness about the minimum zone follows the line of all means of both directions") {
    // Constructed: the zone of EYX stands on 0 at 0 and -10 at 1 000 mm (negative), below 6 at 750 mm (positive): slope -10 urad;
    // that of EXY is 0.
    auto x = support::series("EYX", {0, 250, 500, 750, 1000}, {{0, 6, 8, 6, 0}}, {{0, 3, 4, 3, -10}});
    x.id = "EYX";
    const auto made = squared({"X", "Y"}, x, straight_line("EXY", {0, 150, 300}, {0, 1, 0}), 0, ReferenceLine::MinimumZone);
    CHECK(made.urad() == Approx(10));
    CHECK(made.result().lines[2].slope_first.in(units::micrometre_per_metre) == Approx(-10));
}
