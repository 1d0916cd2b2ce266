#include "evaluate/review/cautions.hpp"
#include "evaluate/review/lacking.hpp"
#include "support/evaluations.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;

namespace {

document::Document measured_job() {
    auto document = support::document(support::series("EXX", {0, 100}, {{1, 2}, {1, 2}}, {{0, 1}, {0, 1}}));
    document.series[0].instrument = "laser";
    document.instruments.emplace_back().id = "laser";
    return document;
}

std::vector<std::string> texts(const document::Document& document) {
    std::vector<std::string> texts;
    for (const auto& warning : evaluate::evaluate(document).warnings) texts.push_back(warning.text);
    return texts;
}

bool lacks(const document::Document& document, const std::string& purpose, const std::string& pointer) {
    const auto lacking = evaluate::lacking_in(document);
    return std::any_of(lacking.begin(), lacking.end(),
                       [&](const auto& lack) { return lack.purpose == purpose && lack.pointer == pointer; });
}

}  // namespace

TEST_CASE("a certificate that ran out before the last day of measurement is a warning") {
    auto document = measured_job();
    document.job.measured_from = "2026-05-11T23:10+02:00";
    document.job.measured_to = "2026-05-12T00:40+02:00";
    document.instruments[0].due = "2026-05-12";
    CHECK(texts(document).empty());
    document.instruments[0].due = "2026-05-11";
    REQUIRE(texts(document).size() == 1);
    CHECK(texts(document)[0] ==
          "the calibration of instrument laser ran out on 2026-05-11, before the measurement of 2026-05-12");
    document.instruments[0].kind = "laser interferometer";
    document.instruments[0].serial = "L-131";
    CHECK(texts(document)[0] ==
          "the calibration of laser interferometer L-131 ran out on 2026-05-11, before the measurement of 2026-05-12");
    CHECK(evaluate::evaluate(document).warnings[0].pointer == "/instruments/0/due");
}

TEST_CASE("an instrument calibrated after the measurement is a warning") {
    auto document = measured_job();
    document.series[0].runs[0].started = "2026-01-08T09:00";
    document.instruments[0].calibrated = "2026-01-09";
    REQUIRE(texts(document).size() == 1);
    CHECK(texts(document)[0] == "instrument laser was calibrated on 2026-01-09, after the measurement of 2026-01-08");
}

TEST_CASE("unequal runs and targets without readings are warnings") {
    auto document = support::document(
        support::series("EXX", {0, 100}, {{1, support::missing}, {1, support::missing}}, {{0, support::missing}}));
    const auto found = texts(document);
    REQUIRE(found.size() == 2);
    CHECK(found[0] == "EXX: 2 runs in the positive and 1 in the negative approach");
    CHECK(found[1] == "EXX: no reading at 1 of 2 targets, the first at 100 mm");
}

TEST_CASE("a bare series lacks what each purpose asks for") {
    const auto document = support::document(support::series("EXX", {0, 100}, {{1, 2}}, {}));
    CHECK(lacks(document, "ISO/IEC 17025 7.8.2.1 a", "/job/title"));
    CHECK(lacks(document, "ISO/IEC 17025 7.8.2.1 j", "/job/issued"));
    CHECK(lacks(document, "ISO/IEC 17025 7.8.2.1 o", "/job/people"));
    CHECK(lacks(document, "ISO/IEC 17025 7.8.4.1 c", "/instruments"));
    CHECK(lacks(document, "ISO 230-2 test report", "/series/0/sign"));
    CHECK(lacks(document, "decision", "/series/0/tolerances"));
    CHECK(lacks(document, "uncertainty", "/series/0/instrument"));
}

TEST_CASE("what is stated is not lacking") {
    auto document = measured_job();
    document.job.title = "Test of the X axis";
    document.job.people = {{"Approved by", "Head of laboratory"}};
    document.instruments[0].certificate = "EX-1";
    document.series[0].sign_stated = true;
    CHECK_FALSE(lacks(document, "ISO/IEC 17025 7.8.2.1 a", "/job/title"));
    CHECK_FALSE(lacks(document, "ISO/IEC 17025 7.8.2.1 o", "/job/people"));
    CHECK_FALSE(lacks(document, "ISO/IEC 17025 7.8.4.1 c", "/instruments/0/certificate"));
    CHECK_FALSE(lacks(document, "ISO 230-2 test report", "/series/0/sign"));
    CHECK_FALSE(lacks(document, "uncertainty", "/series/0/instrument"));
    CHECK(lacks(document, "uncertainty", "/instruments/0/expanded_uncertainty/positioning"));
}

TEST_CASE("positions of a rotary axis need an angle certificate, not one for lengths") {
    auto document = support::document(
        support::series("ECC", {0, 90}, {{1, 2}, {1, 2}}, {{0, 1}, {0, 1}}, units::arcsecond, units::position_degree));
    document.series[0].instrument = "indexer";
    document.instruments.emplace_back().id = "indexer";
    CHECK(lacks(document, "uncertainty", "/instruments/0/expanded_uncertainty/angle"));
    CHECK_FALSE(lacks(document, "uncertainty", "/instruments/0/expanded_uncertainty/positioning"));
    document.instruments[0].angle = document::StatedCapability{.constant = 3, .per_metre = 0};
    CHECK_FALSE(lacks(document, "uncertainty", "/instruments/0/expanded_uncertainty/angle"));
}

TEST_CASE("limits without a decision rule lack the rule") {
    auto document = measured_job();
    document.series[0].tolerances.push_back(
        {"E", "specification", units::Deviation(5, units::micrometre), units::micrometre, {}});
    CHECK(lacks(document, "ISO/IEC 17025 7.8.6", "/evaluation/decision_rule"));
    document.evaluation.decision_rule = document::DecisionRule::GuardBand;
    CHECK_FALSE(lacks(document, "ISO/IEC 17025 7.8.6", "/evaluation/decision_rule"));
}

TEST_CASE("two series of one axis lack the travel of the axis once") {
    auto document = measured_job();
    document.series.push_back(document.series[0]);
    const auto lacking = evaluate::lacking_in(document);
    CHECK(std::count_if(lacking.begin(), lacking.end(), [](const auto& lack) { return lack.what == "travel of axis X"; }) == 1);
}

TEST_CASE("each default that was used is one sentence, and none is named that the document settles") {
    auto document = measured_job();
    CHECK(evaluate::defaults_used(document, evaluate::HasUncertainty::Yes) ==
          std::vector<std::string>{"No edition named: positioning is evaluated by ISO 230-2:2014.",
                                   "No sign named in EXX: readings are taken as actual minus target.",
                                   "No coverage named: expanded uncertainties are given with k = 2.",
                                   "No Monte Carlo asked for: uncertainties are propagated to first order only.",
                                   "Hints not switched off: the readings are tested for hints, which change no result."});
    CHECK(evaluate::defaults_used(document, evaluate::HasUncertainty::No).size() == 3);  // nothing of coverage, nothing of Monte Carlo
    document.evaluation.standard = document::Standard::Iso230_2_2006;
    document.evaluation.coverage = document::Coverage::K2;
    document.evaluation.monte_carlo.emplace();
    document.evaluation.hints = false;
    document.series[0].sign_stated = true;
    CHECK(evaluate::defaults_used(document, evaluate::HasUncertainty::Yes).empty());
}
