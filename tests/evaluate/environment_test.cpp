#include "evaluate/surroundings/surroundings.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using evaluate::NotEvaluated;

namespace {

document::EnvironmentSample sample(const std::string& time, double air, double hPa, double humidity, double near_C, double far_C) {
    document::EnvironmentSample s;
    s.time = time;
    s.air_C = air;
    s.pressure_hPa = hPa;
    s.humidity_percent = humidity;
    s.machine_C = {{"near", near_C}, {"far", far_C}};
    return s;
}

/// A 2 m axis measured from 08:00 to 08:20 while the air warms by 1 K at constant pressure.
document::Document warming() {
    auto series = support::series("EXX", {0, 1000, 2000}, {{0, 0, 0}}, {{0, 0, 0}});
    series.runs[0].started = "2026-05-11T08:00+02:00";
    series.runs[0].ended = "2026-05-11T08:10+02:00";
    series.runs[1].started = "2026-05-11T08:10+02:00";
    series.runs[1].ended = "2026-05-11T08:20+02:00";
    document::Document document = support::document(series);
    support::add_axis(document, "X", 0, 2000);
    document.machine->axes[0].expansion = document::Expansion{11.5, 2, 2};
    document.machine->axes[0].sensors = {"near", "far"};
    document.environment.emplace();
    document.environment->samples = {sample("2026-05-11T08:00+02:00", 20.0, 1013.25, 50, 21.0, 21.4),
                                     sample("2026-05-11T08:10+02:00", 20.5, 1013.25, 50, 21.1, 21.5),
                                     sample("2026-05-11T08:20+02:00", 21.0, 1013.25, 50, 21.2, 21.6)};
    return document;
}

double number(const std::optional<evaluate::Evaluated<double>>& value) { return std::get<double>(value.value()); }

}  // namespace

TEST_CASE("one kelvin of warming changes the index by 0.955 µm/m, over two metres by twice that") {
    // Sensitivity at 20 degC, 101 325 Pa, 50 %: -0.955 µm/m per K, recomputed by three equations.
    const auto environment = evaluate::evaluate_environment(warming());
    const auto* air = evaluate::value_of(environment.air);
    REQUIRE(air);
    CHECK(air->samples == 3);
    CHECK(air->mean.temperature_C == Approx(20.5));
    CHECK(air->change_um_per_m() == Approx(0.955).epsilon(0.005));
    REQUIRE(air->change_over_travel.size() == 1);
    CHECK(air->change_over_travel[0].um == Approx(1.91).epsilon(0.005));
    CHECK(air->difference() == air->ciddor - air->edlen);
    CHECK(std::abs(air->difference()) < 1e-8);
}

TEST_CASE("the index of the air is computed for the wavelength that the instrument states") {
    // NIST's calculator, 40 degC, 110 kPa, 100 %: 1.000289 at 300 nm (air_index_test.cpp).
    auto document = warming();
    document.environment->samples = {sample("2026-05-11T08:00+02:00", 40, 1100, 100, 21, 21)};
    document.series[0].instrument = "laser";
    document.instruments.emplace_back().id = "laser";
    const auto assumed = *evaluate::value_of(evaluate::evaluate_air(document));
    CHECK_FALSE(assumed.wavelength_stated);
    CHECK(assumed.vacuum_wavelength_nm == 632.9912);
    document.instruments[0].vacuum_wavelength_nm = 300;
    const auto stated = *evaluate::value_of(evaluate::evaluate_air(document));
    CHECK(stated.wavelength_stated);
    CHECK(stated.ciddor == Approx(1.000289).epsilon(0).margin(1e-9));
    CHECK(stated.edlen == Approx(1.000288922).epsilon(0).margin(1e-9));
    CHECK(stated.ciddor - assumed.ciddor > 1e-5);
    // An axis that another instrument measures keeps its own wavelength: air index against the record follows the series.
    document.series[0].air_correction = document::AirCorrection{true, "Ciddor", 39, 1100, 100};
    const double at_300 = number(evaluate::evaluate_applied(document)[0].air_um_per_m);
    document.instruments[0].vacuum_wavelength_nm.reset();
    CHECK(number(evaluate::evaluate_applied(document)[0].air_um_per_m) != Approx(at_300).epsilon(0.01));
}

TEST_CASE("the axis expands by coefficient, length and departure from 20 degrees") {
    const auto environment = evaluate::evaluate_environment(warming());
    REQUIRE(environment.expansion.size() == 1);
    const auto& expansion = environment.expansion[0];
    CHECK(expansion.mean_C == Approx(21.3));
    CHECK(expansion.um_per_m == Approx(11.5 * 1.3));
    CHECK(*expansion.um == Approx(2 * 11.5 * 1.3));
    CHECK(expansion.standard->from_coefficient == Approx(2 * 1.3 * 1));
    CHECK(expansion.standard->from_temperature == 0);  // the sensors' own uncertainty is not in their record
}

TEST_CASE("a laser not told of warmer air reads short") {
    auto document = warming();
    document.series[0].air_correction = document::AirCorrection{true, "Edlen", 20.5, 1013.25, 50};
    CHECK(number(evaluate::evaluate_applied(document)[0].air_um_per_m) == Approx(0).margin(1e-6));
    document.series[0].air_correction->air_C = 19.5;  // assumed 1 K too cold: 0.955 µm/m short
    CHECK(number(evaluate::evaluate_applied(document)[0].air_um_per_m) == Approx(-0.955).epsilon(0.005));
}

TEST_CASE("an expansion coefficient that was applied too small leaves lengths too long") {
    auto document = warming();
    document.series[0].expansion_correction = document::ExpansionCorrection{true, 10.5};
    CHECK(number(evaluate::evaluate_applied(document)[0].expansion_um_per_m) == Approx(1.3));
    document.series[0].expansion_correction = document::ExpansionCorrection{false, {}};
    CHECK(number(evaluate::evaluate_applied(document)[0].expansion_um_per_m) == Approx(11.5 * 1.3));
}

TEST_CASE("the dead path changes by its length times the change of index") {
    // 100 mm and 1 K of air: 0.0955 µm; warmer air makes the reading shorter.
    auto document = warming();
    document.series[0].dead_path_mm = 100;
    CHECK(number(evaluate::evaluate_applied(document)[0].dead_path_um) == Approx(-0.0955).epsilon(0.005));
}

TEST_CASE("the surroundings of each run are those recorded in its time") {
    const auto runs = evaluate::surroundings_during_runs(warming());
    REQUIRE(runs.size() == 2);
    for (const auto& run : runs) {
        CHECK(run.air_K == Approx(0.5));
        CHECK(run.machine_K == Approx(0.1));
        CHECK(run.index_um_per_m == Approx(0.477).epsilon(0.005));
    }
}

TEST_CASE("a run shorter than the interval of the record sees its share of the change") {
    auto document = warming();
    document.series[0].runs[0].started = "2026-05-11T08:02+02:00";
    document.series[0].runs[0].ended = "2026-05-11T08:04+02:00";
    CHECK(evaluate::surroundings_during_runs(document)[0].air_K == Approx(0.1));  // 0.5 K in ten minutes
}

TEST_CASE("without a complete record the index is not evaluated, with the reason") {
    auto document = warming();
    for (auto& s : document.environment->samples) s.humidity_percent.reset();
    const auto air = evaluate::evaluate_air(document);
    REQUIRE(std::holds_alternative<NotEvaluated>(air));
    CHECK(std::get<NotEvaluated>(air).reason == "no sample of the record has air temperature, pressure and humidity together");
    document.environment.reset();
    CHECK(std::holds_alternative<NotEvaluated>(evaluate::evaluate_environment(document).air));
}

TEST_CASE("the drift record gives its range and says whether it covers the test") {
    auto document = warming();
    document.drift = {
        {"X", "EXX", 1000, {{"2026-05-11T09:00+02:00", 0.0}, {"2026-05-11T09:10+02:00", 0.9}, {"2026-05-11T09:19+02:00", -0.3}}}};
    auto drift = evaluate::evaluate_drift(document);
    REQUIRE(drift.size() == 1);
    CHECK(drift[0].um == Approx(1.2));
    CHECK(drift[0].standard_um == Approx(1.2 / std::sqrt(12.0)));
    CHECK(*drift[0].minutes == 19);
    CHECK(*drift[0].test_minutes == 20);
    CHECK(*drift[0].covers_test == false);
    document.drift[0].samples_um.emplace_back("2026-05-11T09:20+02:00", 0.0);
    CHECK(*evaluate::evaluate_drift(document)[0].covers_test);
}
