#include "layouts/layout.hpp"
#include "report/blocks/blocks.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;
using support::says;

namespace {

document::Contributor per_metre(const std::string& name, double standard) {
    document::Contributor contributor;
    contributor.name = name;
    contributor.applies_to = {"EXX"};
    contributor.value = standard;
    contributor.unit = "um/m";
    contributor.correlated = "air";
    contributor.basis = "certificate 12 of the sensor";
    return contributor;
}

/// An axis of 1 m that repeats exactly: means 0 and 11 µm each way. c = 0.1 µm, a = 0.3 µm/m, and two correlated parts of 0.1 and 0.2 µm/m:
/// u = root((0.3 + 0.1)² + (0.1 + 0.2)²) = 0.5 µm; U = 2 u = 1.0 µm.
document::Document exact(double limit = 13) {
    auto series = support::series("EXX", {0, 1000}, {{0, 11}, {0, 11}}, {{0, 11}, {0, 11}});
    series.instrument = "laser";
    series.tolerances.push_back({"A", "specification", units::Deviation(limit, units::micrometre), units::micrometre, {}});
    auto document = support::document(series);
    document::Instrument laser;
    laser.id = "laser";
    laser.certificate = "K 17";
    laser.positioning = document::StatedCapability{0.2, 0.6};
    laser.coverage_factor = 2;
    document.instruments.push_back(laser);
    document.uncertainty.contributors = {per_metre("thermometer", 0.1), per_metre("barometer", 0.2)};
    document.evaluation.decision_rule = document::DecisionRule::GuardBandBothSides;
    return document;
}

struct UncertaintyPage : support::Reported {
    std::optional<report::Uncertainty> page = report::uncertainty(subject());
    std::string words = page ? support::words_of(page->sections) : "";
};

std::string notes_of(const report::Budget& budget) {
    std::string words;
    for (const auto& note : budget.notes) words += note.words() + "\n";
    return words;
}

}  // namespace

TEST_CASE("a budget ranks its contributors by their share of the variance, and names what each is made of") {
    const UncertaintyPage made{exact()};
    REQUIRE(made.page);
    REQUIRE(made.page->budgets.size() == 1);
    const auto& budget = made.page->budgets[0];
    CHECK(budget.heading == "Positioning EXX: A");
    const auto& first = budget.rows[0];
    CHECK(first.name.words() == "Instrument, length-proportional");
    CHECK(first.made_of.words() == "u\u00a0=\u00a00.30\u202fµm/m, normal; sensitivity 1\u202f000\u202fmm; ν\u00a0=\u00a0∞");
    CHECK(first.contribution.words() == "0.30");
    // 0.16 / 0.25 is the certificate's sum, 0.3 / 0.4 of that its length part: 48 %.
    CHECK(first.share.words() == "48\u202f%");
    CHECK(first.basis.words() == "certificate K 17");
    CHECK(std::ranges::is_sorted(budget.rows, std::ranges::greater{}, &report::BudgetRow::share_of_variance));
    CHECK(budget.combined.words() == "0.50");
    CHECK(budget.expanded.words() == "1.0");
    CHECK(budget.coverage.words() == "coverage about 95\u202f%, ν\u00a0=\u00a0∞");
}

TEST_CASE("correlated contributors and the certificate's sum are named under the budget") {
    const std::string notes = notes_of(UncertaintyPage{exact()}.page->budgets[0]);
    CHECK(says(notes, "Correlated (“air”), so added before squaring: thermometer and barometer. Their shares stand in proportion"));
    CHECK(says(notes, "Correlated (“certificate of the instrument”), so added before squaring: instrument, length-proportional and "
                      "instrument, constant."));
}

TEST_CASE("the lead says how much and from what, the body what improving it would bring") {
    const UncertaintyPage made{exact()};
    CHECK(made.page->opening.lead.words() ==
          "The uncertainty of A is 1.0\u202fµm. Largest part, 48\u202f% of its variance: instrument, length-proportional.");
    // Of the certificate's sum the constant 0.1 remains: 2 x root(0.1² + 0.3²) = 0.632.
    CHECK(says(made.page->opening.body.words(), "without it U would be about 0.6\u202fµm"));
}

TEST_CASE("the decision is drawn with its guard bands, margins and probability of conformity") {
    const UncertaintyPage made{exact()};
    REQUIRE(made.page->decision);
    const auto& picture = *made.page->decision;
    // 13 - 11 = 2.0; 13 - 11.0 - 1.0 = 1.0 from printed numbers; (13 - 11) / 0.5 = 4: 99.99 %.
    CHECK(picture.margins[0].words() == "margin 2.0\u202fµm");
    CHECK(picture.margins[1].words() == "after U 1.0\u202fµm");
    CHECK(picture.margins[2].words() == "probability of conformity over 99.9\u202f%");
    REQUIRE(picture.zones.size() == 3);
    CHECK(picture.zones[1].guard);
    CHECK(picture.zones[1].from == Approx(12).epsilon(1e-12));
    CHECK(picture.zones[1].to == Approx(14).epsilon(1e-12));
    CHECK(picture.edges[0].second == "12.0");
    CHECK(picture.verdict.standing == report::Standing::Inside);
    CHECK(says(picture.alternative,
               "A\u00a0=\u00a011.0\u202fµm, U\u00a0=\u00a01.0, limit 13\u202fµm; Inside by the rule guarded acceptance and rejection."));
    CHECK(says(made.words, "|11.0|1.0|13|2.0|1.0|over 99.9\u202f%|Inside|"));
}

TEST_CASE("a margin whose sign rounding would hide gets one more digit") {
    // 11.96 - 11 - 1 = -0.04 is past the guard band: 0.0 would not show it.
    const UncertaintyPage made{exact(11.96)};
    CHECK(made.page->decision->margins[1].words() == "after U \u22120.04\u202fµm");
    CHECK(made.page->decision->verdict.standing == report::Standing::Undecided);
}

TEST_CASE("each rule has its own zones") {
    const auto zones = [](document::DecisionRule rule) {
        auto document = exact();
        document.evaluation.decision_rule = rule;
        std::vector<std::string> words;
        const UncertaintyPage made{document};
        for (const auto& zone : made.page->decision->zones) words.push_back(zone.word.words());
        return words;
    };
    using document::DecisionRule;
    using Words = std::vector<std::string>;
    CHECK(zones(DecisionRule::Simple) == Words{"inside", "outside"});
    CHECK(zones(DecisionRule::GuardBand) == Words{"inside", "not accepted", "outside"});
    CHECK(zones(DecisionRule::Iso14253_1) == Words{"inside", "undecided", "outside"});
    CHECK(zones(DecisionRule::NonBinary) == Words{"inside", "inside by less than U", "outside by less than U", "outside"});
}

TEST_CASE("every parameter of both directions stands in one matrix with u, degrees of freedom, k and U") {
    const std::string words = UncertaintyPage{exact()}.words;
    CHECK(says(words, "All parameters of Positioning EXX\n"));
    CHECK(says(words, "Thermometer|0.10|"));
    CHECK(says(words, "Combined u|0.50|"));
    CHECK(says(words, "Coverage factor k|2.00|"));
}

TEST_CASE("every uncertainty stands somewhere, however many there are") {
    // Six local lengths are more than the matrix has columns for.
    auto series = support::series("EYX", {0, 100, 200, 300, 400, 500, 600, 700}, {{0, 1, 3, 2, 1, 0, 1, 0}, {0, 1, 2, 2, 1, 0, 1, 0}},
                                  {{0, 1, 3, 2, 1, 0, 1, 0}, {0, 2, 3, 2, 1, 1, 1, 0}});
    series.instrument = "laser";
    auto document = support::document(series);
    document::Instrument laser;
    laser.id = "laser";
    laser.straightness = document::StatedCapability{0.4, 0.2};
    document.instruments.push_back(laser);
    document.evaluation.local_straightness_mm = std::vector<double>{100, 200, 300, 400, 500, 600};
    const UncertaintyPage made{document};
    std::size_t locals = 0;
    for (const auto& entry : made.evaluation.uncertainty) {
        if (!entry.length_mm) continue;
        ++locals;
        const std::string length = std::to_string(static_cast<int>(*entry.length_mm)) + "\u202fmm|";
        INFO(length);
        CHECK((says(made.words, "local " + length) || says(made.words, "over " + length)));
    }
    CHECK(locals == 6);
}

TEST_CASE("a stated uncertainty is printed as stated") {
    auto document = exact();
    document.uncertainty.stated.push_back({"s", "A", units::Deviation(2.4, units::micrometre), units::micrometre, 2});
    const UncertaintyPage made{document};
    CHECK(says(made.words, "Positioning EXX|A|1.20|\u2013|2.00|2.4\u202fµm|as stated|"));
}

TEST_CASE("a budget below the laboratory's capability prints the capability and says so") {
    auto document = exact();
    document.job.laboratory.emplace();
    document.job.laboratory->capability.push_back({"EXX", "A", units::Deviation(1.5, units::micrometre), units::micrometre});
    const UncertaintyPage made{document};
    const auto& budget = made.page->budgets[0];
    CHECK(budget.expanded.words() == "1.5");
    CHECK(budget.combined.words() == "\u2013");
    CHECK(says(
        notes_of(budget),
        "less than the calibration and measurement capability (CMC) that the laboratory states, 1.5\u202fµm, which is printed instead"));
}

TEST_CASE("the second opinion stands only where it was asked for, and says whether it agrees and which value is printed") {
    CHECK_FALSE(says(UncertaintyPage{exact()}.words, "Monte Carlo validation"));
    auto document = exact();
    document.evaluation.monte_carlo = document::MonteCarloRequest{5000, 7};
    CHECK(says(UncertaintyPage{document}.words, "Not simulated, Positioning EXX: fewer than four readings at a target"));
    const auto once = document.series[0].runs;
    document.series[0].runs.insert(document.series[0].runs.end(), once.begin(), once.end());
    const UncertaintyPage made{document};
    CHECK(says(made.words, "Monte Carlo validation"));
    const auto* entry = evaluate::find_uncertainty(made.evaluation, "s", "A");
    REQUIRE(entry->monte_carlo);
    const auto* simulated = evaluate::value_of(*entry->monte_carlo);
    REQUIRE(simulated);
    CHECK(says(made.words, simulated->agrees                                                  ? "|yes|"
                           : simulated->printed == evaluate::MonteCarloResult::Printed::Wider ? "|no, wider|"
                                                                                              : "|no, narrower|"));
    CHECK(says(made.words, "5\u202f000 trials, seed 7"));
    CHECK(says(made.words, "used for the decisions, is the first-order value"));
}

TEST_CASE("what scatter adds to a range stands where U alone would say too little, and its reason where it is not known") {
    CHECK(says(UncertaintyPage{exact()}.words, "Not evaluated, Positioning EXX: all readings at every target are equal"));
    auto document = exact();
    document.series[0] = support::series("EXX", {0, 500, 1000}, {{0.9, -1.1, 0.1}, {-0.8, 1.2, -0.2}, {0.2, 1.0, 0.4}},
                                         {{-0.9, 0.6, 0.3}, {0.7, -0.8, 0.2}, {-0.3, -0.9, -1.1}});
    document.series[0].instrument = "laser";
    const UncertaintyPage made{document};
    CHECK(says(made.words, "Bias of ranges"));
    CHECK(says(made.words, "Positioning EXX|E|"));
    const auto* entry = evaluate::find_uncertainty(made.evaluation, "s", "E");
    REQUIRE(entry->interval);
    CHECK(entry->interval->stated);
    const auto first_page = report::answer(made.subject());
    const auto told = std::ranges::find(first_page.weaknesses, report::scatter_anchor, &report::Weakness::destination);
    REQUIRE(told != first_page.weaknesses.end());
    CHECK(told->sentence.words().starts_with("Random variation makes"));
    CHECK(says(told->sentence.words(), "U alone does not cover that"));
}

TEST_CASE("nothing to say, no block; limits without any uncertainty still show the rule") {
    auto bare = support::document(support::series("EXX", {0, 1000}, {{0, 1}}, {{0, 1}}));
    CHECK_FALSE(UncertaintyPage{bare}.page);
    bare.series[0].tolerances.push_back({"E", "specification", units::Deviation(5, units::micrometre), units::micrometre, {}});
    const UncertaintyPage made{bare};
    REQUIRE(made.page);
    CHECK(made.page->budgets.empty());
    CHECK(made.page->decision);
    CHECK(says(made.page->opening.lead.words(), "No uncertainty is stated"));
}
