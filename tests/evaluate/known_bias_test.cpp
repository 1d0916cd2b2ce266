#include "evaluate/evaluation.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "support/budgets.hpp"
#include "support/evaluations.hpp"

#include <nlohmann/json.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

// Dry air with 450 µmol/mol of carbon dioxide at 20 degC, 632.99 nm: n - 1 = 271.800e-6 at 101 325 Pa (NIST Engineering Metrology Toolbox)
// and 268.244e-6 at 100 000 Pa (Ciddor 1996, table 1). A laser that took the lower pressure reads 3.556 µm/m too long.
constexpr double stale = 271.800 - 268.244;

/// An axis of 2 m with 1 µm in its middle, read by a laser that took the air of 1 000 hPa; U = 0.2 µm + 0.6 µm/m.
document::Document stale_air() {
    const std::vector<double> once{0, 1 + stale, 2 * stale};
    auto series = support::series("EXX", {0, 1000, 2000}, {once, once}, {once, once});
    series.instrument = "laser";
    series.air_correction = document::AirCorrection{true, "Ciddor", 20, 1000, 0};
    auto document = support::document(series);
    document.instruments.push_back(support::laser());
    document.environment.emplace().samples = {{"2026-05-11T08:00Z", 20, 1013.25, 0, 450, {}}};
    return document;
}

const Parameter& parameter(const Evaluation& evaluation, const char* name) { return *find_parameter(evaluation.series[0], name); }

double um(const std::optional<Deviation>& value) { return value.value().in(units::micrometre); }

std::size_t count_of(const Evaluation& evaluation, FindingCode code) {
    return static_cast<std::size_t>(std::count_if(evaluation.warnings.begin(), evaluation.warnings.end(),
                                                  [&](const Warning& warning) { return warning.code == code; }));
}

document::Contributor covering(document::Influence influence, double half_width, const std::string& unit) {
    document::Contributor contributor;
    contributor.name = "stale air";
    contributor.applies_to = {"EXX"};
    contributor.form = document::Contributor::Form::HalfWidth;
    contributor.value = half_width;
    contributor.unit = unit;
    contributor.distribution = document::Distribution::Rectangular;
    contributor.influence = influence;
    return contributor;
}

}  // namespace

TEST_CASE("stale air that nobody corrects enlarges U by its size over the travel, and is found") {
    const Evaluation evaluation = evaluate::evaluate(stale_air());
    CHECK(um(*value_of(parameter(evaluation, "E").value)) == Approx(2 * stale).margin(2e-3));
    REQUIRE(evaluation.known_biases.size() == 1);
    CHECK(evaluation.known_biases[0].influence == document::Influence::AirCorrection);
    CHECK(evaluation.known_biases[0].treatment == KnownBias::Treatment::Added);
    CHECK(evaluation.known_biases[0].over_travel_um() == Approx(2 * stale).margin(2e-3));
    const ParameterUncertainty& E = *find_uncertainty(evaluation, "s", "E");
    CHECK(um(E.standard) == Approx(0.7));  // 0.3 x 2 + 0.1: u has nothing of it
    CHECK(um(E.expanded) == Approx(1.4 + 2 * stale).margin(2e-3));
    CHECK(um(E.known_bias) == Approx(2 * stale).margin(2e-3));
    CHECK(um(E.expanded_at_setting_targets) == Approx(1.4 + 2 * stale).margin(2e-3));
    CHECK_THAT(E.notes.back(), Catch::Contains("the air values that the instrument took (+7.1 µm)") && Catch::Contains("k u plus"));
    CHECK_FALSE(parameter(evaluation, "E").raw);
    CHECK(count_of(evaluation, FindingCode::BiasNotCorrected) == 1);
    CHECK(evaluation.warnings.back().pointer == "/series/0/air_correction");
    // M has the same length in it; a reversal is measured at one place.
    CHECK(um(find_uncertainty(evaluation, "s", "M")->known_bias) == Approx(2 * stale).margin(2e-3));
    for (const auto& entry : evaluation.uncertainty)
        if (entry.parameter[0] == 'B' || entry.parameter[0] == 'R') CHECK_FALSE(entry.known_bias);
}

TEST_CASE("where the correction is asked for it is taken off every mean, and the raw value stays beside it") {
    auto document = stale_air();
    document.evaluation.air_correction = document::AirCorrectionRequest::FromRecord;
    const Evaluation evaluation = evaluate::evaluate(document), as_read = evaluate::evaluate(stale_air());
    CHECK(um(*value_of(parameter(evaluation, "E").value)) == Approx(1).margin(2e-3));
    CHECK(um(parameter(evaluation, "E").raw) == um(*value_of(parameter(as_read, "E").value)));
    CHECK(um(evaluation.series[0].targets[2].one_way.positive.mean) == Approx(0).margin(2e-3));
    CHECK(um(evaluation.series[0].targets[2].mean) == Approx(0).margin(2e-3));
    const auto& taken = std::get<AirTakenOff>(*evaluation.series[0].air_correction);
    CHECK(taken.um_per_m == Approx(stale).margin(1e-3));
    CHECK(evaluation.known_biases[0].treatment == KnownBias::Treatment::Corrected);
    CHECK(um(find_uncertainty(evaluation, "s", "E")->expanded) == Approx(1.4));
    CHECK(count_of(evaluation, FindingCode::BiasNotCorrected) == 0);
    const auto json = nlohmann::json::parse(evaluation_json(document, evaluation));
    CHECK(json["series"][0]["air_correction"]["um_per_m"].get<double>() == Approx(stale).margin(1e-3));
    CHECK(json["series"][0]["parameters"]["E"]["raw"].get<double>() == Approx(2 * stale).margin(2e-3));
    CHECK(json["known_biases"][0]["treatment"] == "corrected");
}

TEST_CASE("the place where nothing is taken off shifts the deviations and no parameter") {
    auto document = stale_air();
    document.evaluation.air_correction = document::AirCorrectionRequest::FromRecord;
    const Evaluation from_low = evaluate::evaluate(document);
    auto& series = document.series[0];
    std::reverse(series.targets.begin(), series.targets.end());
    for (auto& run : series.runs) std::reverse(run.deviations.begin(), run.deviations.end());
    const Evaluation from_high = evaluate::evaluate(document);
    CHECK(um(from_high.series[0].targets[0].mean) - um(from_low.series[0].targets[0].mean) == Approx(2 * stale).margin(2e-3));
    for (const char* name : {"E", "M", "B", "A", "R"})
        CHECK(um(*value_of(parameter(from_high, name).value)) ==
              Approx(um(*value_of(parameter(from_low, name).value))).margin(1e-12));
}

TEST_CASE("a correction that cannot be had is told with its reason, and nothing is changed") {
    auto document = stale_air();
    document.evaluation.air_correction = document::AirCorrectionRequest::FromRecord;
    document.environment->samples[0].humidity_percent.reset();
    Evaluation evaluation = evaluate::evaluate(document);
    CHECK(count_of(evaluation, FindingCode::AirCorrectionNotPossible) == 1);
    CHECK(std::get_if<NotEvaluated>(&*evaluation.series[0].air_correction));
    CHECK(um(*value_of(parameter(evaluation, "E").value)) == Approx(2 * stale).margin(2e-3));
    document.series[0].air_correction.reset();
    evaluation = evaluate::evaluate(document);
    CHECK(std::get<NotEvaluated>(*evaluation.series[0].air_correction).reason == "the document does not say what air the instrument took");
}

TEST_CASE("a contributor that covers a known bias keeps U as it is, and a small one changes nothing") {
    auto document = stale_air();
    document.uncertainty.contributors = {covering(document::Influence::AirCorrection, 3.6, "um/m")};
    const Evaluation covered = evaluate::evaluate(document);
    CHECK(covered.known_biases[0].treatment == KnownBias::Treatment::InBudget);
    const double u = 2 * 3.6 / std::sqrt(3.0);
    CHECK(um(find_uncertainty(covered, "s", "E")->expanded) == Approx(2 * std::hypot(0.7, u)));
    CHECK_THAT(find_uncertainty(covered, "s", "E")->notes.back(), Catch::StartsWith("“stale air” of the document counts the air values"));
    CHECK(count_of(covered, FindingCode::BiasNotCorrected) == 0);

    auto fresh = stale_air();
    fresh.series[0].air_correction->pressure_hPa = 1013.05;  // 0.2 hPa: 0.05 µm/m, 0.11 µm of U = 1.4 µm
    const Evaluation small = evaluate::evaluate(fresh);
    CHECK(small.known_biases[0].treatment == KnownBias::Treatment::Small);
    CHECK(um(find_uncertainty(small, "s", "E")->expanded) == Approx(1.4));
}

TEST_CASE("known biases of one series are added with their signs: a beam at an angle reads short") {
    // Offsets 0 and 2 mm over 2 m: 1 mrad, 0.5 µm/m short (L theta^2 / 2), 1.0 µm over the travel, more than a tenth of 1.4 µm.
    auto document = stale_air();
    document.setup.emplace().checks = {support::beam_offset("beam offset, near end", 0, 0.0),
                                       support::beam_offset("beam offset, far end", 2000, 2.0)};
    const Evaluation evaluation = evaluate::evaluate(document);
    REQUIRE(evaluation.known_biases.size() == 2);
    CHECK(evaluation.known_biases[1].over_travel_um() == Approx(-1).margin(1e-5));
    CHECK(um(find_uncertainty(evaluation, "s", "E")->known_bias) == Approx(2 * stale - 1).margin(2e-3));
    CHECK(count_of(evaluation, FindingCode::CosineError) == 1);
    document.uncertainty.contributors = {covering(document::Influence::Cosine, 1, "um")};
    CHECK(evaluate::evaluate(document).known_biases[1].treatment == KnownBias::Treatment::InBudget);
}

TEST_CASE("without an uncertainty a known bias is open: it is named, and no U hides it") {
    auto document = stale_air();
    document.instruments.clear();
    document.series[0].instrument.clear();
    const Evaluation evaluation = evaluate::evaluate(document);
    CHECK(evaluation.known_biases.at(0).treatment == KnownBias::Treatment::Open);
    CHECK(count_of(evaluation, FindingCode::BiasNotCorrected) == 1);
}

TEST_CASE("guard bands hold a known bias in full, and the probability of conformity counts it towards the limit") {
    auto document = stale_air();
    const double bias = evaluate::evaluate(document).known_biases[0].over_travel_um();
    document.series[0].tolerances.push_back({"E", "order", units::micrometre(16), units::micrometre, {}});
    const auto decided = [&](document::DecisionRule rule) {
        document.evaluation.decision_rule = rule;
        return evaluate::evaluate(document).decisions.at(0);
    };
    using document::DecisionRule;
    CHECK(um(decided(DecisionRule::GuardBand).guard) == Approx(1.4 + bias));
    CHECK(um(decided(DecisionRule::Iso14253_1).guard) == Approx(1.65 * 0.7 + bias));
    CHECK(um(decided(DecisionRule::Simple).guard) == 0);
    CHECK(decided(DecisionRule::GuardBandBothSides).outcome == Outcome::Pass);  // 7.1 + 1.4 + 7.1 = 15.6
    document.series[0].tolerances[0].limit = units::micrometre(15.5);
    CHECK(decided(DecisionRule::GuardBandBothSides).outcome == Outcome::Undecided);
    // At 2 x bias the shifted value stands on the limit: half.
    document.series[0].tolerances[0].limit = units::micrometre(um(decided(DecisionRule::Simple).value) + bias);
    CHECK(decided(DecisionRule::Simple).probability_of_conformity == Approx(0.5).margin(1e-9));
}
