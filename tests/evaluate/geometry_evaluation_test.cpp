#include "evaluate/written/evaluation_json.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

document::Series named(document::Series series, const std::string& id, const std::string& state) {
    series.id = id;
    series.state = state;
    series.instrument = "laser";
    series.measurement_line = 0;
    return series;
}

/// X as found and as left with its pitch, and the two straightnesses of a square between X and Y.
document::Document two_axes() {
    document::Document document;
    const std::vector<double> mm{0, 250, 500, 750, 1000};
    const auto both = [&](const char* symbol, const std::vector<double>& um, const DeviationUnit& unit) {
        return support::series(symbol, mm, {um, um, um, um}, {um, um, um, um}, unit);
    };
    const DeviationUnit um = units::micrometre;
    document.series = {named(both("EXX", {0, 4, 9, 12, 16}, um), "x-found", "as-found"),
                       named(both("EXX", {0, 1, 0, 1, 0}, um), "x-left", "as-left"),
                       named(both("EBX", {0, 5, 10, 5, 0}, units::microradian), "pitch", "as-left"),
                       named(both("EYX", {0, 2.5, 5, 7.5, 10}, um), "eyx", "as-left"),
                       named(both("EXY", {0, -5, -10, -15, -20}, um), "exy", "as-left")};
    document::Instrument laser;
    laser.id = "laser";
    laser.positioning = document::StatedCapability{0.2, 0.6};
    laser.straightness = document::StatedCapability{0.4, 0.2};
    document.instruments.push_back(laser);
    document.setup.emplace().lines.push_back({"X", {}, std::array<double, 3>{0, 0, 200}});
    document.squareness.push_back(
        {.axes = {"X", "Y"},
         .series = {"eyx", "exy"},
         .square_error_urad = units::arcsecond.in_base,
         .square_expanded_urad = 1.0,
         .square_coverage_factor = 2,
         .square_serial = "Q 7",
         .tolerance = document::Tolerance{"squareness", "specification", units::microradian(20), units::microradian, {}}});
    document.compensation.push_back({"X", "x-found", 250, 0, 1, document::TableKind::Bidirectional});
    document.evaluation.decision_rule = document::DecisionRule::GuardBand;
    document.evaluation.monte_carlo = document::MonteCarloRequest{2000, 1};
    return document;
}

const nlohmann::json& entry(const nlohmann::json& list, const char* key, const std::string& value) {
    for (const auto& each : list)
        if (each.at(key) == value) return each;
    throw std::out_of_range(value);
}

}  // namespace

TEST_CASE("squareness, compensation, comparison and tool point reach the evaluation output") {
    const auto document = two_axes();
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    const auto& square = json.at("squareness").at(0);
    CHECK(square.at("symbol") == "EC0Y");
    CHECK(square.at("value").get<double>() == Approx(14.848137).margin(5e-7));  // -(10 - 20) + 4.848137
    const auto& table = json.at("compensation").at(0);
    CHECK(table.at("points").at(4).at("correction") == -16);
    CHECK(table.at("predicted").at("E") == 0);
    const auto& change = json.at("compare").at(0).at("parameters").at("E");
    CHECK(change.at("change") == -15);
    const auto& left = entry(json.at("series"), "id", "x-left");
    CHECK(left.at("at_tool_point").at("largest") == 2);  // 10 urad x 200 mm
    CHECK(left.at("at_tool_point").at("set_by").at(0).at("position") == 500);
    CHECK(left.at("at_tool_point").at("parameters").at("E").at("value") == 2);
}

TEST_CASE("a squareness has its uncertainty, and its decision by the document's rule") {
    const auto document = two_axes();
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    const auto& decision = entry(json.at("decisions"), "parameter", "squareness");
    // Straight lines: only instrument and square, 2 x 0.3^2 + 0.5^2; U = 2 sqrt(0.43) = 1.311; AL = 18.689.
    CHECK(entry(json.at("uncertainty"), "parameter", "squareness").at("expanded").get<double>() == Approx(2 * std::sqrt(0.43)));
    CHECK(decision.at("outcome") == "pass");
    CHECK(decision.at("acceptance_limit").get<double>() == Approx(20 - 2 * std::sqrt(0.43)));
}

TEST_CASE("as found against as left has the U of each change, by standard uncertainties whatever k they were stated with") {
    auto document = two_axes();
    // u = 0.9 (2.7 with k 3) and 1.2 (2.4 with k 2) of a 3-4-5 triangle: u of the change 1.5, U = 3.0 with k 2.
    document.uncertainty.stated = {{"x-found", "E", units::micrometre(2.7), units::micrometre, 3},
                                   {"x-left", "E", units::micrometre(2.4), units::micrometre, 2}};
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    const auto& change = json.at("compare").at(0).at("parameters").at("E");
    CHECK(change.at("standard").get<double>() == Approx(1.5));
    CHECK(change.at("expanded").get<double>() == Approx(3));
    CHECK(change.at("coverage_factor") == 2);
    document.evaluation.coverage = document::Coverage::Percent95;
    const auto normal = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    CHECK(normal.at("compare").at(0).at("parameters").at("E").at("expanded").get<double>() == Approx(1.5 * 1.959964).epsilon(1e-6));
}

TEST_CASE("a squareness as found and as left stands with its change") {
    auto document = two_axes();
    for (const std::size_t place : {3U, 4U}) {
        auto found = document.series[place];
        found.id += "-found";
        found.state = "as-found";
        for (auto& run : found.runs)
            for (auto& reading : run.deviations) reading = *reading * 2.0;
        document.series.push_back(found);
    }
    auto found = document.squareness[0];
    found.series = {"eyx-found", "exy-found"};
    document.squareness.push_back(found);
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    REQUIRE(json.at("compare_squareness").size() == 1);
    const auto& pair = json["compare_squareness"][0];
    CHECK(pair.at("found") == nlohmann::json({"eyx-found", "exy-found"}));
    CHECK(pair.at("left") == nlohmann::json({"eyx", "exy"}));
    const auto& change = pair.at("parameters").at("squareness");
    CHECK(change.at("found").get<double>() == Approx(24.848137).margin(5e-7));
    CHECK(change.at("change").get<double>() == Approx(-10));
    // Each as in the test above: u^2 = 0.43.
    CHECK(change.at("expanded").get<double>() == Approx(2 * std::sqrt(2 * 0.43)));
}

TEST_CASE("a local straightness has its window in one unit, whatever unit the positions are in") {
    auto series = support::series("EYX", {0, 10, 20, 30}, {{0, 0, 100, 0}}, {{0, 0, 100, 0}}, units::microinch, units::position_inch);
    auto document = support::document(series);
    document.evaluation.local_straightness_mm = {254};
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    for (const auto& local : json.at("series").at(0).at("local")) {
        CHECK(local.at("unit") == "mm");
        CHECK(local.at("to").get<double>() - local.at("from").get<double>() == Approx(local.at("length").get<double>()));
    }
}

TEST_CASE("positioning budgets carry their second opinion when Monte Carlo is asked for") {
    const auto document = two_axes();
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    const auto& first = entry(json.at("uncertainty"), "parameter", "E");
    CHECK(first.at("series") == "x-found");
    CHECK(first.at("monte_carlo").at("trials") == 2000);
    CHECK(entry(json.at("uncertainty"), "parameter", "straightness").at("monte_carlo").contains("not_evaluated"));
}

TEST_CASE("a line fitted to one direction says which") {
    auto document = support::document(support::series("EYX", {0, 500, 1000}, {{0, 3, 0}}, {}));
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluate::evaluate(document)));
    const auto& series = json.at("series").at(0);
    CHECK(series.at("lines").at("end_point").at("approach") == "positive");
    CHECK(series.at("lines").at("end_point").at("straightness") == 3);
    CHECK(series.at("not_evaluated").contains("straightness"));
    CHECK(series.at("parameters").at("straightness_positive").at("reference_line") == "least_squares");
}
