#include "evaluate/review/lacking.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"
#include "support/budgets.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace wayfolio;
using namespace wayfolio::evaluate;
using support::find;
using support::two_targets;
using support::uncertainties;
using support::variance;

TEST_CASE("contributors of one name are added before squaring, half-widths become standard uncertainties") {
    auto document = two_targets();
    document.uncertainty.contributors.clear();
    document.drift.clear();
    for (int i = 0; i < 2; ++i) {
        document::Contributor air;
        air.name = i == 0 ? "air temperature" : "air pressure";
        air.applies_to = {"EXX"};
        air.form = document::Contributor::Form::HalfWidth;
        air.value = std::sqrt(3.0) * 0.2;
        air.unit = "um/m";
        air.distribution = document::Distribution::Rectangular;
        air.correlated = "axis";
        document.uncertainty.contributors.push_back(air);
    }
    const auto all = uncertainties(document);  // (0.3 + 0.1)^2 of the certificate, (0.2 + 0.2)^2 of the air
    CHECK(variance(all, "E") == Approx(0.16 + 0.16 + 1));
    document.uncertainty.contributors[1].correlated.clear();
    CHECK(variance(uncertainties(document), "E") == Approx(0.16 + 0.04 + 0.04 + 1));
}

TEST_CASE("the certificate's constant is added to its own length part alone, whatever else grows with length") {
    // U = 0.2 um + 0.6 um/m and an independent 3 um/m of the document: over 1 m (0.3 + 0.1)^2 + 3^2, not (root(0.3^2 + 3^2) + 0.1)^2.
    auto document = two_targets();
    document.drift.clear();
    document.uncertainty.contributors[0].value = 3;
    document.uncertainty.contributors[0].unit = "um/m";
    const auto all = uncertainties(document);
    CHECK(variance(all, "E") == Approx(0.16 + 9 + 1));
    const auto& lines = find(all, "E")->contributors;
    CHECK(lines[0].correlated == "certificate of the instrument");
    CHECK(lines[1].correlated == lines[0].correlated);
    CHECK(lines[2].correlated.empty());
}

TEST_CASE("the expansion coefficient enters unless the readings are said to be uncorrected") {
    auto document = two_targets();
    document.uncertainty.contributors.clear();
    document.drift.clear();
    support::add_axis(document, "X", 0, 1000);
    document.machine->axes[0].expansion = document::Expansion{11.7, 2, 2};
    document.machine->axes[0].sensors = {"bed"};
    document.environment.emplace().samples = {{"2026-05-11T08:00Z", {}, {}, {}, {}, {{"bed", 22.0}}},
                                              {"2026-05-11T09:00Z", {}, {}, {}, {}, {{"bed", 23.0}}}};
    // dT = 2.5 K, u(alpha) = 1: 2.5 um/m. Swyt, J. Res. NIST 99 (1994) 31.
    CHECK(variance(uncertainties(document), "E") == Approx(0.16 + 6.25 + 1));
    document.series[0].expansion_correction = document::ExpansionCorrection{false, {}};
    CHECK(variance(uncertainties(document), "E") == Approx(0.16 + 1));
}

TEST_CASE("a contributor that names an influence takes the place of what the program counts, and the notes say so") {
    auto document = two_targets();  // (0.3 + 0.1)^2 + 0.3^2 + drift 0.03 + scatter 1
    support::add_axis(document, "X", 0, 1000);
    document.machine->axes[0].expansion = document::Expansion{11.7, 2, 2};
    document.environment.emplace().samples = {{"2026-05-11T08:00Z", {}, {}, {}, {}, {{"bed", 22.5}}}};
    const double scatter = 1, drift = 0.03, certificate = 0.16, own = 0.09, coefficient = 6.25;
    auto& contributor = document.uncertainty.contributors[0];
    const auto with = [&](std::optional<document::Influence> influence) {
        contributor.influence = influence;
        return uncertainties(document);
    };
    using document::Influence;
    CHECK(variance(with({}), "E") == Approx(certificate + own + coefficient + drift + scatter));
    CHECK_THAT(find(with({}), "E")->notes.at(0),
               Catch::Equals("Counted beside the input quantities of the document: expansion coefficient, drift at rest."));
    CHECK(variance(with(Influence::ExpansionCoefficient), "E") == Approx(certificate + own + drift + scatter));
    CHECK(variance(with(Influence::Drift), "E") == Approx(certificate + own + coefficient + scatter));
    CHECK(variance(with(Influence::Instrument), "E") == Approx(own + coefficient + drift + scatter));
    for (const auto influence : {Influence::ExpansionCoefficient, Influence::Drift, Influence::Instrument}) {
        const auto all = with(influence);
        const std::string wanted = "“set-up repeatability” of the document takes the place of " +
                                   std::string(document::influence_name(influence)) + ", which is not counted beside it.";
        CHECK(std::count(find(all, "E")->notes.begin(), find(all, "E")->notes.end(), wanted) == 1);
    }
    document.drift.clear();
    const auto without = with(Influence::Drift);  // nothing to take the place of: nothing is said
    for (const auto& note : find(without, "E")->notes) CHECK(note.find("takes the place") == std::string::npos);
}

TEST_CASE("every line of a budget that the document does not list has an influence of the closed set") {
    for (const auto& entry : uncertainties(two_targets()))
        for (const auto& line : entry.contributors) {
            CAPTURE(entry.parameter, line.name);
            CHECK(line.influence.has_value() == (line.name != "set-up repeatability"));
        }
}

TEST_CASE("where targets tie for a setting place, the largest U counts, whichever comes first") {
    // Mean 10 at 0 mm (s = 0) and at 1 000 mm (s = sqrt 8), 0 between: E is 10 whichever of them is taken, and so must U be.
    auto document = two_targets();
    const auto both_ways = [&](const std::vector<double>& targets, const support::Rows& rows) {
        document.series[0] = support::series("EXX", targets, rows, rows);
        document.series[0].instrument = "laser";
        return uncertainties(document);
    };
    for (const auto& rows : {support::Rows{{10, 0, 8}, {10, 0, 12}}, support::Rows{{8, 0, 10}, {12, 0, 10}}}) {
        const auto all = both_ways({0, 500, 1000}, rows);
        CHECK(variance(all, "E") == Approx(0.16 + 0.09 + 0.03 + 4));
        CHECK(variance(all, "E_positive") == Approx(0.16 + 0.09 + 0.03 + 4));
        CHECK(variance(all, "M") == Approx(0.16 + 0.09 + 0.015 + 2));
        CHECK(variance(all, "B") == Approx(0.03 + 8));  // B is 0 everywhere: both scatters at the end
        CHECK(std::pow(find(all, "E")->standard_at_setting_targets->in(units::micrometre), 2) == Approx(0.0625 + 0.09 + 0.03 + 4));
    }
    // Scatter alike: the longer distance of the tied places, 0.75 m of 1 m, from either side.
    for (const double middle : {250.0, 750.0}) {
        const auto all = both_ways({0, middle, 1000}, {{10, 0, 10}, {10, 0, 10}});
        CHECK(std::pow(find(all, "E")->standard_at_setting_targets->in(units::micrometre), 2) ==
              Approx(std::pow(0.3 * 0.75 + 0.1, 2) + 0.09 + 0.03));
    }
}

TEST_CASE("what a contributor takes the place of is not missing in U") {
    auto document = two_targets();  // no expansion coefficient, no temperature of the machine
    document.drift.clear();
    document.instruments[0].positioning.reset();
    const auto missing = [&](const std::string& part) {
        const auto all = lacking_in(document);
        return std::any_of(all.begin(), all.end(), [&](const Lack& lack) {
            return lack.purpose == "uncertainty" && lack.what.find(part) != std::string::npos;
        });
    };
    const std::vector<std::pair<document::Influence, std::string>> covered{
        {document::Influence::ExpansionCoefficient, "expansion coefficient"},
        {document::Influence::Drift, "drift record"},
        {document::Influence::Instrument, "expanded uncertainty of instrument"}};
    for (const auto& [influence, what] : covered) {
        CAPTURE(what);
        document.uncertainty.contributors[0].influence.reset();
        CHECK(missing(what));
        document.uncertainty.contributors[0].influence = influence;
        CHECK_FALSE(missing(what));
    }
}
