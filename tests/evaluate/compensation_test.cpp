#include "evaluate/compensation/compensation.hpp"
#include "evaluate/written/compensation_text.hpp"
#include "evaluate/series/positioning.hpp"
#include "support/documents.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using document::TableKind;

namespace {

struct Request {
    double spacing = 50, reference = 0, increment = 1;
    TableKind kind = TableKind::Bidirectional;
};

CompensationEvaluation compensated(const document::Series& series, const Request& request) {
    auto document = support::document(series);
    document.compensation.push_back(
        {series.error.axis, "s", request.spacing, request.reference, request.increment, request.kind});
    return evaluate_compensation(document, {evaluate_positioning(document, series)}).at(0);
}

std::vector<double> corrections(const CompensationTable& table, const DeviationUnit& unit = units::micrometre) {
    std::vector<double> values;
    for (const auto& point : table.points) values.push_back(point.correction.in(unit));
    return values;
}

std::vector<double> changes(const CompensationTable& table) {
    std::vector<double> values;
    for (const auto& point : table.points) values.push_back(point.change.in(units::micrometre));
    return values;
}

void check_close(const std::vector<double>& found, const std::vector<double>& expected) {
    REQUIRE(found.size() == expected.size());
    for (std::size_t i = 0; i < found.size(); ++i) CHECK(found[i] == Approx(expected[i]).margin(1e-9));
}

const std::vector<double> places{0, 50, 100, 150, 200, 250, 300};
const support::Rows forward{{0, 1.3, 2.7, 3.4, 5.2, 6.1, 6.6}};
const support::Rows backward{{-3, -1.9, -0.2, 0.3, 1.9, 3.3, 3.6}};

}  // namespace

TEST_CASE("a table is minus the mean, zero at the reference, the accumulated value rounded") {
    // Constructed case, general convention of the textbooks.
    const auto made = compensated(support::series("EXX", places, forward, backward), {});
    REQUIRE(made.refused.empty());
    check_close(corrections(made.tables.at(0)), {0, -1, -3, -3, -5, -6, -7});
    check_close(changes(made.tables.at(0)), {0, -1, -2, 0, -2, -1, -1});
    CHECK(made.reversal->in(units::micrometre) == 3);
    std::vector<double> positive, negative;
    for (const auto& target : made.predicted_targets) {
        positive.push_back(target.means.positive->in(units::micrometre));
        negative.push_back(target.means.negative->in(units::micrometre));
    }
    check_close(positive, {0, 0.3, -0.3, 0.4, 0.2, 0.1, -0.4});
    check_close(negative, {0, 0.1, -0.2, 0.3, -0.1, 0.3, -0.4});
}

TEST_CASE("a slow slope is not lost, because the accumulated value is rounded and not each step") {
    const support::Rows slope{{0, 0.4, 0.8, 1.2, 1.6, 2.0, 2.4}};
    const auto made = compensated(support::series("EXX", places, slope, slope), {});
    check_close(corrections(made.tables.at(0)), {0, 0, -1, -1, -2, -2, -2});
    check_close(changes(made.tables.at(0)), {0, 0, -1, 0, -1, 0, 0});
    std::vector<double> left;
    for (const auto& target : made.predicted_targets) left.push_back(target.mean->in(units::micrometre));
    check_close(left, {0, 0.4, -0.2, 0.2, -0.4, 0, 0.4});
}

TEST_CASE("halves of an increment go away from zero, even where doubles just miss them") {
    const support::Rows halves{{0, 0.5, -0.5, 2.5, 0.1 + 0.2 + 0.2, 1.5, -1.5}};
    const auto made = compensated(support::series("EXX", places, halves, halves), {});
    check_close(corrections(made.tables.at(0)), {0, -1, 1, -3, -1, -2, 2});
}

TEST_CASE("points stand on both sides of the reference and inside the measured range, interpolated") {
    const support::Rows ramp{{10, 20, 40}};
    const auto made =
        compensated(support::series("EXX", {30, 130, 230}, ramp, ramp), {.spacing = 50, .reference = 100, .increment = 0.5});
    std::vector<double> at;
    for (const auto& point : made.tables.at(0).points) at.push_back(point.position.in(units::position_millimetre));
    check_close(at, {50, 100, 150, 200});
    check_close(corrections(made.tables.at(0)), {5, 0, -7, -17});  // means 12, 17, 24, 34
    check_close(changes(made.tables.at(0)), {0, -5, -7, -10});  // nothing stands before the first point
    CHECK(made.remarks.at(0).find("interpolates") != std::string::npos);
}

TEST_CASE("two tables take the shape of their own direction and the reversal at the reference") {
    const auto made = compensated(support::series("EXX", places, forward, backward), {.increment = 0.1, .kind = TableKind::Both});
    REQUIRE(made.tables.size() == 2);
    CHECK(made.tables[0].approach == Approach::Positive);
    check_close(corrections(made.tables[0]), {0, -1.3, -2.7, -3.4, -5.2, -6.1, -6.6});
    check_close(corrections(made.tables[1]), {0, -1.1, -2.8, -3.3, -4.9, -6.3, -6.6});
    CHECK(made.reversal->in(units::micrometre) == Approx(3));
    for (const auto& target : made.predicted_targets) {
        CHECK(target.means.positive->in(units::micrometre) == Approx(0).margin(1e-9));
        CHECK(target.means.negative->in(units::micrometre) == Approx(0).margin(1e-9));
    }
}

TEST_CASE("the standard deviations stay, so predicted repeatability does not improve") {
    const auto series =
        support::series("EXX", places, {forward[0], {1, 2.3, 3.7, 4.4, 6.2, 7.1, 7.6}}, {backward[0], backward[0]});
    const auto made = compensated(series, {});
    const auto measured = evaluate_positioning(support::document(series), series);
    const auto value = [](const std::vector<Parameter>& of, std::string_view name) {
        for (const auto& parameter : of)
            if (parameter.name == name) return value_of(parameter.value)->in(units::micrometre);
        return std::nan("");
    };
    CHECK(value(made.predicted, "R_positive") == Approx(value(measured.parameters, "R_positive")));
    CHECK(value(made.predicted, "E") < value(measured.parameters, "E"));
    CHECK(value(made.predicted, "A") < value(measured.parameters, "A"));
}

TEST_CASE("a rotary axis has its table in degrees and arc seconds") {
    const support::Rows arc{{0, 4, 0, -4}};
    const auto made = compensated(support::series("ECC", {0, 90, 180, 270}, arc, arc, units::arcsecond, units::position_degree),
                                  {.spacing = 45, .increment = 0.5});
    CHECK(made.unit == DeviationUnit(units::arcsecond));
    check_close(corrections(made.tables.at(0), units::arcsecond), {0, -2, -4, -2, 0, 2, 4});
    CHECK(worked_line(made).find("the table says -4 arcsec: the axis is sent to 89.99888889 deg") != std::string::npos);
}

TEST_CASE("a table is refused with the reason where spacing, range or readings do not support it") {
    const auto series = support::series("EXX", places, forward, backward);
    CHECK(compensated(series, {.reference = 310}).refused.at(0).find("outside the measured range") != std::string::npos);
    CHECK(compensated(series, {.spacing = 400}).refused.at(0).find("fewer than two points") != std::string::npos);
    CHECK(compensated(series, {.spacing = 0.01}).refused.at(0).find("more than 10000 points") != std::string::npos);
    CHECK(compensated(series, {.increment = 0}).refused.at(0).find("least increment") != std::string::npos);
    const auto one_way = support::series("EXX", places, forward, {});
    CHECK(compensated(one_way, {}).refused.at(0).find("both approaches") != std::string::npos);
    CHECK(compensated(support::series("EYX", places, forward, backward), {}).refused.at(0).find("EYX") != std::string::npos);
    CHECK(compensated(series, {.reference = 310}).tables.empty());
}

TEST_CASE("readings in one direction give a table for it, without a reversal") {
    const auto made = compensated(support::series("EXX", places, forward, {}), {.kind = TableKind::Positive});
    CHECK(made.refused.empty());
    CHECK_FALSE(made.reversal);
    check_close(corrections(made.tables.at(0)), {0, -1, -3, -3, -5, -6, -7});
}

TEST_CASE("the file says convention, worked line and cautions before its numbers") {
    const auto made = compensated(support::series("EXX", places, forward, backward), {});
    document::Document document;
    document.job.number = "K-2041";
    document.job.revision = 1;
    document.job.data_notice = "Invented\ndata";
    const std::string text = compensation_csv(made, document);
    CHECK(text.rfind("# Compensation table of axis X, from series s of job K-2041, revision 1\n", 0) == 0);
    CHECK(text.find("at 300 mm the table says -7 um: the axis is sent to 299.993 mm") != std::string::npos);
    CHECK(text.find("# Reversal 3 um") != std::string::npos);
    CHECK(text.find("measure again") != std::string::npos);
    CHECK(text.find("# Invented data\n") != std::string::npos);  // a line break in a name must not end the head
    CHECK(text.find("# Positions in mm, corrections in um; correction: what is added there") != std::string::npos);
    CHECK(text.find("position_mm,correction_um,change_um\n0,0,0\n50,-1,-1\n100,-3,-2\n") != std::string::npos);
}

TEST_CASE("a table of tenths is written in tenths, without the dust of binary arithmetic") {
    const auto made = compensated(support::series("EXX", places, forward, backward), {.increment = 0.1, .kind = TableKind::Both});
    const std::string text = compensation_csv(made, {});
    CHECK(text.find("position_mm,correction_positive_um,change_positive_um,correction_negative_um,change_negative_um\n") !=
          std::string::npos);
    CHECK(text.find("\n100,-2.7,-1.4,-2.8,-1.7\n") != std::string::npos);
    CHECK(text.find("00000000") == std::string::npos);
}

TEST_CASE("the worked line moves the axis against its error: sent there, it stands where the prediction says") {
    struct Case {
        const char* error;
        support::Rows forward, backward;
        units::DeviationUnit unit;
        units::PositionUnit position_unit;
        double to_position_unit;  ///< of one unit of the deviation
    };
    const support::Rows falling{{0, -1.3, -2.7, -3.4, -5.2, -6.1, -6.6}};
    const std::vector<Case> cases{{"EXX", forward, backward, units::micrometre, units::position_millimetre, 1e-3},
                                  {"EXX", falling, falling, units::micrometre, units::position_millimetre, 1e-3},
                                  {"ECC", forward, backward, units::arcsecond, units::position_degree, 1.0 / 3600}};
    for (const Case& one : cases) {
        const auto made = compensated(support::series(one.error, places, one.forward, one.backward, one.unit, one.position_unit), {});
        const std::string line = worked_line(made);
        CAPTURE(line);
        const double commanded = std::stod(line.substr(line.find("for example at ") + 15)),
                     sent = std::stod(line.substr(line.find("is sent to ") + 11));
        const auto at = static_cast<std::size_t>(std::find(places.begin(), places.end(), commanded) - places.begin());
        REQUIRE(at < places.size());
        const auto mean = [&](std::size_t i) { return (one.forward[0][i] + one.backward[0][i]) / 2; };
        // Where the axis comes to stand: where it was sent, plus its error there from the reference.
        const double stands = sent + (mean(at) - mean(0)) * one.to_position_unit;
        const auto& predicted = made.predicted_targets;
        const double left = (*predicted[at].mean - *predicted[0].mean).in(one.unit) * one.to_position_unit;
        CHECK(stands - commanded == Approx(left).margin(1e-7));  // the line has ten digits
        CHECK(std::abs(left) <= 0.5 * one.to_position_unit * (1 + 1e-9));  // half an increment
    }
}

TEST_CASE("the reversal added on negative approach brings both directions together") {
    // Positive reads 3 µm more than negative: 3 µm are added to what is commanded on negative approach.
    const auto made = compensated(support::series("EXX", places, forward, backward), {.increment = 0.01});
    CHECK(made.reversal->in(units::micrometre) == Approx(3.04).margin(0.011));
    double sum = 0;
    for (const auto& target : made.predicted_targets) sum += (*target.means.positive - *target.means.negative).in(units::micrometre);
    CHECK(sum / 7 == Approx(0).margin(0.0051));
}

TEST_CASE("as JSON the cautions and the convention stand before the numbers") {
    const auto made = compensated(support::series("EXX", places, forward, backward), {});
    const std::string text = compensation_json_file(made, {});
    const auto at = [&](const std::string& words) { return text.find(words); };
    CHECK(at("\"format\": \"wayfolio-compensation\"") < at("\"cautions\""));
    CHECK(at("\"cautions\"") < at("\"convention\""));
    CHECK(at("\"convention\"") < at("\"points\""));
    CHECK(at("\"sign\": \"correction = minus error, added to the commanded position\"") != std::string::npos);
    CHECK(at("\"reversal\": 3") != std::string::npos);
}

TEST_CASE("at table points the bidirectional mean, less its value at the reference, is at most half an increment") {
    CHECK(rc::check([] {
        const auto up = *rc::gen::container<std::vector<int>>(9, rc::gen::inRange(-4000, 4000));
        const auto down = *rc::gen::container<std::vector<int>>(9, rc::gen::inRange(-4000, 4000));
        const int reference = *rc::gen::inRange(0, 9), increment = *rc::gen::inRange(1, 500);
        std::vector<double> at, positive, negative;
        for (std::size_t i = 0; i < 9; ++i) {
            at.push_back(static_cast<double>(i) * 125);
            positive.push_back(up[i] / 100.0);
            negative.push_back(down[i] / 100.0);
        }
        const auto made = compensated(support::series("EXX", at, {positive}, {negative}),
                                      {.spacing = 125, .reference = reference * 125.0, .increment = increment / 100.0});
        const auto& targets = made.predicted_targets;
        RC_ASSERT(targets.size() == 9u);
        for (const auto& target : targets) {
            const double left = (*target.mean - *targets[static_cast<std::size_t>(reference)].mean).in(units::micrometre);
            RC_ASSERT(std::abs(left) <= increment / 200.0 * (1 + 1e-8) + 1e-9);
        }
    }));
}
