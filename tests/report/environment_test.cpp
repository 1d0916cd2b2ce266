#include "layouts/layout.hpp"
#include "report/blocks/blocks.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/build.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;
using support::says;

namespace {

document::EnvironmentSample sample(const std::string& clock, double air, double humidity, double near_C) {
    document::EnvironmentSample s;
    s.time = "2026-05-11T" + clock + "+02:00";
    s.air_C = air;
    s.pressure_hPa = 1013.25;
    s.humidity_percent = humidity;
    s.machine_C = {{"near", near_C}, {"far", near_C + 0.4}};
    return s;
}

/// A 2 m axis measured from 08:00 to 08:20 while the air warms from 20 to 21 °C at 1013.25 hPa.
document::Document warming() {
    auto series = support::series("EXX", {0, 1000, 2000}, {{0, 0, 0}}, {{0, 0, 0}});
    series.state = "as-found";
    series.runs[0].started = "2026-05-11T08:00+02:00";
    series.runs[0].ended = "2026-05-11T08:10+02:00";
    series.runs[1].started = "2026-05-11T08:10+02:00";
    series.runs[1].ended = "2026-05-11T08:20+02:00";
    document::Document document = support::document(series);
    support::add_axis(document, "X", 0, 2000);
    document.machine->axes[0].expansion = document::Expansion{11.5, 2, 2};
    document.machine->axes[0].sensors = {"near", "far"};
    document.environment.emplace();
    document.environment->samples = {sample("08:00", 20.0, 50, 21.0), sample("08:10", 20.5, 50, 21.1), sample("08:20", 21.0, 50, 21.2)};
    return document;
}

struct EnvironmentPage : support::Reported {
    std::optional<report::EnvironmentOpening> page = report::environment(subject());
    std::string words = page ? support::words_of(page->sections) : "";
};

}  // namespace

TEST_CASE("the page prints both air indices as NIST's calculator gives them, and their difference") {
    // Engineering Metrology Toolbox, 20 °C, 101.325 kPa, dry, 633 nm: Ciddor 1.0002718, modified Edlén 1.000271799 (nine decimals).
    auto document = warming();
    document.environment->samples = {sample("08:00", 20, 0, 20), sample("08:20", 20, 0, 20)};
    const EnvironmentPage made{document};
    CHECK(says(made.words, "Refractive index of air|Ciddor (1996)|modified Edlén|difference|"));
    CHECK(says(made.words, "per metre / µm/m|271.800|271.799|0.001|"));
    CHECK(says(made.words, "Index less one by both equations at the mean air of 2 samples"));
    CHECK(says(made.words, "difference: Ciddor less Edlén."));
    CHECK(says(made.words, "relative humidity, 450\u202fµmol/mol carbon dioxide"));
}

TEST_CASE("the wavelength that the index is computed for is printed, and said to be assumed where none is stated") {
    auto document = warming();
    CHECK(says(EnvironmentPage{document}.words,
               "No vacuum wavelength is stated for the instrument: that of a helium-neon laser, 632.9912\u202fnm, is assumed."));
    document.series[0].instrument = "laser";
    document.instruments.emplace_back().id = "laser";
    document.instruments[0].vacuum_wavelength_nm = 543.5;
    CHECK(says(EnvironmentPage{document}.words, "Vacuum wavelength 543.5\u202fnm, as stated for the instrument."));
    CHECK_FALSE(says(EnvironmentPage{document}.words, "assumed"));
}

TEST_CASE("the effect of the recorded change stands per metre and over the travel") {
    // -0.955 µm/m per K at 20 °C, 101 325 Pa and 50 %, recomputed by three equations; the travel is 2 m.
    const EnvironmentPage made{warming()};
    CHECK(says(made.words, "Ciddor (1996)|modified Edlén|difference|over the record|per K|per hPa|per % r.h.|"));
    const auto* air = evaluate::value_of(made.evaluation.environment.air);
    REQUIRE(air);
    CHECK(air->change_um_per_m() == Approx(0.955).margin(0.005));
    CHECK(says(made.words, "|0.95"));
    CHECK(says(made.words, "X, 2\u202f000\u202fmm / µm|\u2013|\u2013|0.00|1.9"));
    CHECK(says(made.words, "Over the record: largest less smallest, by Ciddor"));
    CHECK(made.page->opening.lead.words().starts_with("Largest uncorrected environmental effect: the refractive index of air changed by "
                                                      "0.95\u202fµm/m, 1.9\u202fµm over 2\u202f000\u202fmm of X"));
}

TEST_CASE("expansion shows sensors, coefficient with its uncertainty, and what it makes of the travel") {
    // 11.5 µm/(m K) x 1.3 K = 14.95 µm/m; x 2 m = 29.9 µm; u = 2 m x 1.3 K x 1 µm/(m K) = 2.6 µm.
    const EnvironmentPage made{warming()};
    CHECK(says(made.words, "X: near and far|21.30|21.00 to 21.60|11.5\u00a0±\u202f2.0|14.95|29.9|2.60|"));
}

TEST_CASE("what the instrument applied stands against the record, and the largest effect leads") {
    auto document = warming();
    document.series[0].air_correction = document::AirCorrection{true, "Edlen", 20.5, 1013.25, 50};
    document.series[0].expansion_correction = document::ExpansionCorrection{true, 10.5};
    const EnvironmentPage made{document};
    // The mean recorded air is the air applied; the coefficient is 1 too small over 1.3 K and 2 m.
    CHECK(says(made.words,
               "EXX, as found|air by Edlen, 20.5\u202f°C, 1\u202f013.2\u202fhPa and 50\u202f%; expansion with "
               "10.5\u202fµm/(m\u202fK)|0.00|1.30|2.60|\u2013|"));
    CHECK(made.page->opening.lead.words() == "Largest uncorrected environmental effect: the expansion that it corrected made the "
                                             "instrument read X 2.6\u202fµm too long over 2\u202f000\u202fmm, as found.");
}

TEST_CASE("a correction that cannot be checked says why in its place") {
    auto document = warming();
    document.series[0].air_correction = document::AirCorrection{true, "", {}, {}, {}};
    CHECK(says(EnvironmentPage{document}.words, "|the air that the instrument assumed is not stated in full|"));
}

TEST_CASE("every travel has its row in the air table") {
    auto document = warming();
    for (const char* error : {"EYY", "EZZ", "EZW"}) {
        REQUIRE(document::error_symbol(error));
        auto series = document.series[0];
        series.id = error;
        series.error = *document::error_symbol(error);
        support::add_axis(document, series.error.axis, 0, 1000);
        document.series.push_back(series);
    }
    const EnvironmentPage made{document};
    const auto* air = evaluate::value_of(made.evaluation.environment.air);
    REQUIRE(air);
    REQUIRE(air->change_over_travel.size() == 4);
    for (const std::string axis : {"Y", "Z", "W"})
        CHECK(says(made.words, axis + ", 1\u202f000\u202fmm / µm|\u2013|\u2013|0.00|0.95|"));
}

TEST_CASE("a sum over the travel that lacks a part is not printed as the whole") {
    auto document = warming();
    document.series[0].air_correction = document::AirCorrection{true, "", {}, {}, {}};
    document.series[0].expansion_correction = document::ExpansionCorrection{true, 10.5};
    CHECK(says(EnvironmentPage{document}.words, "not stated in full|1.30|\u2013|\u2013|"));
}

TEST_CASE("a record of several days is told by its beginning and its length") {
    auto document = warming();
    document.environment->samples[2].time = "2026-05-13T08:20+02:00";
    CHECK(says(EnvironmentPage{document}.page->record->alternative, "Environment from 2026-05-11 08:00 over 48 h, 3 samples."));
}

TEST_CASE("a record at rest gives the environmental variation error and says whether it lasted as long as the test") {
    auto document = warming();
    document.drift.push_back(
        {"X", "EXX", 1000, {{"2026-05-11T08:00+02:00", 0.1}, {"2026-05-11T08:05+02:00", 0.7}, {"2026-05-11T08:10+02:00", 0.4}}});
    const EnvironmentPage made{document};
    // Range 0.6; / (2 sqrt 3) = 0.1732; ten minutes against twenty.
    CHECK(says(made.words, "EXX|1\u202f000|10|20|0.60|0.17|no|"));
    CHECK(made.page->record->panels.back().title == "EXX at rest / µm");
}

TEST_CASE("curves, lanes and sessions share one clock") {
    const EnvironmentPage made{warming()};
    REQUIRE(made.page->record);
    const auto& plot = *made.page->record;
    std::vector<std::string> titles;
    for (const auto& panel : plot.panels) titles.push_back(panel.title);
    CHECK(titles == std::vector<std::string>{"Air / °C", "Material / °C", "Pressure / hPa", "Humidity / %",
                                             "Effect of the air on X over 2\u202f000\u202fmm / µm"});
    REQUIRE(plot.lanes.size() == 2);
    CHECK(plot.lanes[1].from == 490);
    CHECK(plot.lanes[1].approach == report::Approach::Negative);
    CHECK(plot.lanes[1].number == "1");
    REQUIRE(plot.sessions.size() == 1);
    CHECK(plot.sessions[0].words == "EXX");
    // The index falls as the air warms: a laser set at 08:00 would read too short.
    CHECK(plot.panels[4].curves[0].points.front().second == 0.0);
    CHECK(plot.panels[4].curves[0].points.back().second.value() == Approx(-1.91).epsilon(0.005));
}

TEST_CASE("the figure's alternative text says what moved, from when to when, and when the runs were") {
    const std::string alternative = EnvironmentPage{warming()}.page->record->alternative;
    CHECK(
        says(alternative, "Environment on 2026-05-11 from 08:00 to 08:20, 3 samples. Air temperature rises from 20.00 to 21.00\u202f°C."));
    CHECK(says(alternative,
               "Near rises from 21.00 to 21.20\u202f°C. Far rises from 21.40 to 21.60\u202f°C. Pressure stays between 1\u202f013.2 and "
               "1\u202f013.2\u202fhPa."));
    CHECK(says(alternative, "Runs EXX from 08:00 to 08:20."));
}

TEST_CASE("a sample without a value breaks its curve and no other") {
    auto document = warming();
    document.environment->samples[1].air_C.reset();
    const auto plot = report::environment_plot(document, evaluate::evaluate(document), {}, {});
    CHECK_FALSE(plot->panels[0].curves[0].points[1].second);
    CHECK(plot->panels[2].curves[0].points[1].second);
}

TEST_CASE("series read in the same runs share their lanes; states and errors name the sessions") {
    auto document = warming();
    auto second = document.series[0];
    second.id = "t";
    second.error = document::error_symbol("EYX").value();
    document.series.push_back(second);
    auto later = document.series[0];
    later.id = "u";
    later.state = "as-left";
    later.runs[0].started = "2026-05-11T09:00+02:00";
    later.runs[0].ended = "2026-05-11T09:10+02:00";
    later.runs.pop_back();
    document.series.push_back(later);
    const auto plot = report::environment_plot(document, evaluate::evaluate(document), {}, {});
    CHECK(plot->lanes.size() == 3);
    REQUIRE(plot->sessions.size() == 2);
    CHECK(plot->sessions[0].words == "as found");
    CHECK(plot->sessions[1].words == "as left");
    CHECK(plot->to == 550);
}

TEST_CASE("without times there is no figure, and the values stand all the same") {
    auto document = warming();
    for (auto& one : document.environment->samples) one.time.clear();
    const EnvironmentPage made{document};
    CHECK_FALSE(made.page->record);
    CHECK(says(made.words, "Recorded values"));
}

TEST_CASE("no record, no page; a layout without the block keeps the values among the conditions") {
    auto without = warming();
    without.environment.reset();
    CHECK_FALSE(EnvironmentPage{without}.page);
    EnvironmentPage made{warming()};
    const auto headings = [&] {
        std::string all;
        for (const auto& block : report::build({made.document, made.evaluation, made.layout}).blocks)
            if (const auto* sections = std::get_if<report::Sections>(&block))
                for (const auto& section : sections->sections) all += section.heading + "\n";
        return all;
    };
    CHECK_FALSE(says(headings(), "Environment over the measuring time"));
    std::erase(made.layout.blocks, "environment");
    CHECK(says(headings(), "Environment over the measuring time"));
}

TEST_CASE("every formula on the page names where it comes from") {
    auto document = warming();
    document.drift.push_back({"X", "EXX", 0, {{"2026-05-11T08:00+02:00", 0.1}, {"2026-05-11T08:05+02:00", 0.7}}});
    document.series[0].dead_path_mm = 100;
    const EnvironmentPage made{document};
    for (const std::string source : {"Applied Optics 35 (1996) 1566", "Metrologia 30 (1993) 155", "J. Res. NIST 99 (1994) 31",
                                     "ISO/TR 230-9:2005 Annex C", "GUM 4.3.7"})
        CHECK(says(made.words, source));
}
