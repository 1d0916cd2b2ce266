#include "evaluate/written/evaluation_json.hpp"
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

    [[nodiscard]] const report::UncertaintyRow& row(const std::string& name) const {
        const auto found = std::ranges::find_if(page->rows, [&](const auto& one) { return one.name.words() == name; });
        if (found == page->rows.end()) throw std::logic_error("no row called " + name);
        return *found;
    }
};

std::string notes_of(const std::vector<report::Text>& notes) {
    std::string words;
    for (const auto& note : notes) words += note.words() + "\n";
    return words;
}

/// "Thermometer|0.2|...|basis" of every row.
std::string words_of(const report::ContributorTable& table) {
    std::string words;
    for (const auto& row : table.rows) {
        words += row.name.words() + "|";
        for (const auto& cell : row.cells) words += cell.words() + "|";
        words += row.basis.words() + "|\n";
    }
    return words;
}

}  // namespace

TEST_CASE("a result stands with its U on the scale of its limit, and with what U is made of") {
    const UncertaintyPage made{exact()};
    REQUIRE(made.page);
    const auto& row = made.row("Positioning EXX, A");
    CHECK(*row.value_of_limit == Approx(11.0 / 13));
    CHECK(*row.U_of_limit == Approx(1.0 / 13));
    CHECK(row.has_limit);
    CHECK(row.u.words() == "0.50");
    CHECK(row.freedom.words() == "\u221e");
    CHECK(row.k.words() == "2.00");
    CHECK(row.coverage.words() == "95\u202f%");
    CHECK(row.U.words() == "1.0");
    CHECK(row.verdict.short_form.words() == "Inside, 1.0 to spare");
    // The certificate's sum is 0.16 of 0.25, the two listed ones together 0.09 of 0.25.
    REQUIRE(row.parts.size() == 2);
    CHECK(row.parts[0].of == report::PartOf::Instrument);
    CHECK(row.parts[0].share == Approx(0.64));
    CHECK(row.parts[1].of == report::PartOf::Listed);
    CHECK(row.parts[1].share == Approx(0.36));
    CHECK(says(row.words, "U is the instrument 64\u202f% and input quantities of the document 36\u202f%; Inside."));
}

TEST_CASE("contributors stand expanded, so that they close with U, and each with its basis") {
    const UncertaintyPage made{exact()};
    REQUIRE(made.page->contributors.size() == 1);
    const auto& table = made.page->contributors[0];
    CHECK(table.units == "µm");
    const std::string words = words_of(table);
    // 2 x 0.3 and 2 x 0.1 of the certificate, 2 x 0.1 and 2 x 0.2 of the document.
    CHECK(says(words, "Instrument, length-proportional|0.6|"));
    CHECK(says(words, "Thermometer|0.2|"));
    CHECK(says(words, "|certificate 12 of the sensor|\n"));
    CHECK(says(words, "Combined, k\u00a0=\u00a02|1.0|"));
    const std::string notes = notes_of(made.page->contributors_notes);
    CHECK(says(notes, "Correlated (“air”), so added before squaring: thermometer and barometer."));
    CHECK(says(notes, "Correlated (“certificate of the instrument”), so added before squaring: instrument, length-proportional and "
                      "instrument, constant."));
    CHECK(says(notes, "stand in the evaluation that this file carries"));
}

TEST_CASE("an input quantity that is expected and not entered stays in the table") {
    const UncertaintyPage made{exact()};
    const auto& rows = made.page->contributors[0].rows;
    const auto missing = std::ranges::find_if(rows, [](const auto& row) { return row.basis.words() == "expected, not entered"; });
    REQUIRE(missing != rows.end());
    CHECK_FALSE(missing->of);
    CHECK(missing->name.spans().front().emphasis == report::Emphasis::Strong);
    for (const auto& cell : missing->cells) CHECK(cell.words() == report::no_value);
}

TEST_CASE("a single contributor is all of U, and a budget of one line closes") {
    auto document = exact();
    document.instruments.clear();
    document.series[0].instrument.clear();
    document.uncertainty.contributors.resize(1);
    const UncertaintyPage made{document};
    const auto& row = made.row("Positioning EXX, A");
    REQUIRE(row.parts.size() == 1);
    CHECK(row.parts[0].of == report::PartOf::Listed);
    CHECK(row.parts[0].share == Approx(1));
    CHECK(made.page->opening.lead.words().starts_with("Thermometer is 100\u202f% of the variance of A."));
    CHECK(made.page->opening.body.empty());  // without it there would be nothing
}

TEST_CASE("the lead says what U comes from and what lies within it of a limit, the body what the largest part is worth") {
    const UncertaintyPage made{exact()};
    CHECK(made.page->opening.lead.words() ==
          "The instrument is 64\u202f% of the variance of A. The value is farther than U from its limit.");
    // Without the certificate 2 x root((0.1 + 0.2)²) = 0.6 remains.
    CHECK(says(made.page->opening.body.words(), "U of A is 1.0\u202fµm; without that part it would be about 0.6\u202fµm"));
    CHECK(says(UncertaintyPage{exact(11.5)}.page->opening.lead.words(), "The value lies within U of its limit."));
}

TEST_CASE("coverage below 95 % is strong, and the note says what k would have to be") {
    auto document = exact();
    document.uncertainty.contributors = {per_metre("thermometer", 5)};
    document.uncertainty.contributors[0].degrees_of_freedom = 4;
    const UncertaintyPage made{document};
    const auto& row = made.row("Positioning EXX, A");
    // Student's t for 4 degrees of freedom: 2 covers 88.4 %, 95 % needs 2.78.
    CHECK(row.coverage.words() == "88\u202f%");
    CHECK(row.coverage.spans().front().emphasis == report::Emphasis::Strong);
    CHECK(says(notes_of(made.page->rows_notes), "A 2.78"));
    CHECK_FALSE(says(notes_of(UncertaintyPage{exact()}.page->rows_notes), "Coverage"));
}

TEST_CASE("each outcome of the rule stands once, with how many results have it and the sentence of one") {
    const auto outcomes = [](document::DecisionRule rule, double limit) {
        auto document = exact(limit);
        document.evaluation.decision_rule = rule;
        const UncertaintyPage made{document};
        std::string words;
        for (const auto& row : made.page->outcomes)
            words += row.word.words() + "|" + row.when.words() + "|" + row.count.words() + "|" + row.example.words() + "\n";
        return words;
    };
    using document::DecisionRule;
    CHECK(outcomes(DecisionRule::Simple, 13) ==
          "Inside|value ≤ limit|1|Positioning is inside its limit of 13\u202fµm, with 2.0\u202fµm to spare.\n"
          "Outside|limit < value|\u2013|\n");
    const std::string guarded = outcomes(DecisionRule::GuardBand, 11.5);
    CHECK(says(guarded, "Not accepted|value ≤ limit < value + U|1|Positioning is not accepted: 0.5\u202fµm under its limit"));
    CHECK(says(guarded, "Outside|limit < value|\u2013|"));
    CHECK(says(outcomes(DecisionRule::Iso14253_1, 13), "Inside|value + 1.65\u202fu ≤ limit|1|"));
    CHECK(says(outcomes(DecisionRule::NonBinary, 10.5), "Outside by less than U|value \u2212 U ≤ limit < value|1|"));
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

TEST_CASE("every uncertainty of a result with a limit stands in a row, however many there are; the rest in the evaluation") {
    auto series = support::series("EYX", {0, 100, 200, 300, 400, 500, 600, 700}, {{0, 1, 3, 2, 1, 0, 1, 0}, {0, 1, 2, 2, 1, 0, 1, 0}},
                                  {{0, 1, 3, 2, 1, 0, 1, 0}, {0, 2, 3, 2, 1, 1, 1, 0}});
    series.instrument = "laser";
    for (int i = 1; i <= 6; ++i)
        series.tolerances.push_back(
            {"local", "order", units::Deviation(9, units::micrometre), units::micrometre, 100.0 * i});
    auto document = support::document(series);
    document::Instrument laser;
    laser.id = "laser";
    laser.straightness = document::StatedCapability{0.4, 0.2};
    document.instruments.push_back(laser);
    document.evaluation.local_straightness_mm = std::vector<double>{100, 200, 300, 400, 500, 600};
    const UncertaintyPage made{document};
    for (const auto& decision : made.evaluation.decisions)
        CHECK(made.row("EYX over " + std::to_string(static_cast<int>(*decision.length_mm)) + "\u202fmm").has_limit);
    CHECK(made.row("Straightness EYX").verdict.short_form.words() == "no limit set");
    const auto json = evaluate::evaluation_json(made.document, made.evaluation);
    for (const auto& entry : made.evaluation.uncertainty)
        for (const auto& line : entry.contributors) CHECK(says(json, "\"name\": \"" + line.name + "\""));
}

TEST_CASE("a stated uncertainty is printed as stated and not divided") {
    auto document = exact();
    document.uncertainty.stated.push_back({"s", "A", units::Deviation(2.4, units::micrometre), units::micrometre, 2});
    const UncertaintyPage made{document};
    const auto& row = made.row("Positioning EXX, A");
    CHECK(row.parts.empty());
    CHECK(row.not_divided.words() == "stated");
    CHECK(row.U.words() == "2.4");
    CHECK(row.freedom.words() == report::no_value);
    CHECK(row.coverage.words() == report::no_value);
}

TEST_CASE("a budget below the laboratory's capability prints the capability and says so") {
    auto document = exact();
    document.job.laboratory.emplace();
    document.job.laboratory->capability.push_back({"EXX", "A", units::Deviation(1.5, units::micrometre), units::micrometre});
    const UncertaintyPage made{document};
    const auto& row = made.row("Positioning EXX, A");
    CHECK(row.U.words() == "1.5");
    CHECK(row.parts.empty());
    CHECK(row.not_divided.words() == "CMC");
    CHECK(says(notes_of(made.page->rows_notes),
               "U of A is the calibration and measurement capability (CMC) that the laboratory states; the input quantities give less."));
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
    CHECK(says(notes_of(UncertaintyPage{exact()}.page->rows_notes),
               "is not evaluated, Positioning EXX: all readings at every target are equal"));
    auto document = exact();
    document.series[0] = support::series("EXX", {0, 500, 1000}, {{0.9, -1.1, 0.1}, {-0.8, 1.2, -0.2}, {0.2, 1.0, 0.4}},
                                         {{-0.9, 0.6, 0.3}, {0.7, -0.8, 0.2}, {-0.3, -0.9, -1.1}});
    document.series[0].instrument = "laser";
    const UncertaintyPage made{document};
    CHECK(says(notes_of(made.page->rows_notes), "E by up to "));
    CHECK(made.page->rows_anchor == report::scatter_anchor);
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
    CHECK(made.page->rows.empty());
    CHECK(made.page->contributors.empty());
    CHECK(made.page->decision);
    CHECK(says(made.page->opening.lead.words(), "No uncertainty is stated"));
}
