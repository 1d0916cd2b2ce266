#include "report/blocks/blocks.hpp"
#include "report/words/passages.hpp"
#include "support/documents.hpp"
#include "support/reports.hpp"

#include <catch2/catch.hpp>

using namespace wayfolio;
using support::says;

namespace {

document::Series taken(const std::string& symbol, const std::string& state, const std::string& instrument, const std::string& from,
                       const std::string& to) {
    auto series = support::series(symbol, {0, 100, 200}, {{0, 1, 2}}, {{0, 1, 2}});
    series.id = symbol + state;
    series.state = state;
    series.instrument = instrument;
    series.runs[0].started = from;
    series.runs[1].ended = to;
    return series;
}

document::Document measured_by_two() {
    document::Document document;
    document.file = "test.json";
    document.series = {taken("EXX", "as-found", "laser", "2026-05-11T08:10+02:00", "2026-05-11T10:20+02:00"),
                       taken("EYX", "as-found", "laser", "2026-05-11T08:10+02:00", "2026-05-11T10:20+02:00"),
                       taken("EXX", "as-left", "laser", "2026-05-11T22:00+02:00", "2026-05-12T01:30+02:00"),
                       taken("EZX", "as-left", "", "", "")};
    document::Instrument laser, level;
    laser.id = "laser";
    laser.kind = "laser interferometer";
    laser.serial = "L-118";
    laser.certificate = "K-55120";
    laser.certified_by = "Example calibration laboratory";
    laser.calibrated = "2026-01-09";
    laser.traceable_to = "the SI unit of length";
    laser.vacuum_wavelength_nm = 632.9912;
    level.id = "level";
    document.instruments = {laser, level};
    document.squareness.push_back({.axes = {"X", "Y"}, .series = {"a", "b"}, .square_serial = "Q-4", .square_certificate = "K-55121"});
    document.machine.emplace().condition = "in use, ways without damage";
    return document;
}

std::string facts_of(const document::Document& document) {
    const support::Reported reported{.document = document};
    return support::words_of(report::fact_sections(reported.subject()));
}

}  // namespace

TEST_CASE("a next measurement is named where it was agreed, and with whom; else nothing is recommended") {
    document::Document document = measured_by_two();
    const auto end_of = [&] {
        const support::Reported reported{.document = document};
        return support::words_of(report::closing(reported.subject()).sections);
    };
    CHECK_FALSE(says(facts_of(document), "Next measurement"));
    CHECK(says(end_of(), "This report makes no recommendation on the next calibration."));
    document.job.measured_from = "2026-08-31T08:00+02:00";
    document.job.agreed_interval = document::AgreedInterval{6, "Head of maintenance"};
    CHECK(says(facts_of(document), "until 2027-02-28, after 6 months, as agreed with Head of maintenance"));
    CHECK_FALSE(says(end_of(), "recommendation"));
    document.job.measured_from.clear();
    document.job.agreed_interval->months = 1;
    CHECK(says(facts_of(document), "after 1 month, as agreed with Head of maintenance"));
    CHECK_FALSE(says(facts_of(document), "until"));
}

TEST_CASE("each instrument stands with its certificate, its issuer, and what it leads to; what is not stated says so") {
    const std::string words = facts_of(measured_by_two());
    CHECK(says(words, "Instruments and traceability\nInstrument|certificate, issuer|calibrated|due|traceable to|\n"));
    CHECK(says(words, "Laser interferometer, serial L-118, vacuum wavelength 632.9912\u202fnm|K-55120, Example calibration laboratory|"
                      "2026-01-09|not stated|the SI unit of length|\n"));
    CHECK(says(words, "level|not stated|not stated|not stated|not stated|\n"));
    CHECK(says(words, "Square for X and Y, serial Q-4|K-55121|\u2013|\u2013|\u2013|\n"));
    CHECK(says(words, "Condition: in use, ways without damage\n"));
}

TEST_CASE("which instrument measured what, and when in each state, stands in one table; what was not measured in a state has a dash") {
    const std::string words = facts_of(measured_by_two());
    CHECK(says(words, "Measured|with|as found|as left|\n"));
    CHECK(says(words, "EXX|serial L-118|2026-05-11 08:10 to 10:20|2026-05-11 22:00 to 2026-05-12 01:30|\n"));
    CHECK(says(words, "EYX|serial L-118|2026-05-11 08:10 to 10:20|\u2013|\n"));
    CHECK(says(words, "EZX|not stated|\u2013|not stated|\n"));
}

TEST_CASE("series taken together share a line, and of more states than two each has lines of its own") {
    auto document = measured_by_two();
    document.series.pop_back();
    document.series.pop_back();
    CHECK(says(facts_of(document), "Measured|with|when, as the document writes it, as found|\n"
                                   "EXX and EYX|serial L-118|2026-05-11 08:10 to 10:20|\n"));
    document.series.push_back(taken("EXX", "adjusted", "laser", "2026-05-11T12:00+02:00", "2026-05-11T13:00+02:00"));
    document.series.push_back(taken("EXX", "as-left", "laser", "2026-05-11T22:00+02:00", "2026-05-11T23:00+02:00"));
    const std::string words = facts_of(document);
    CHECK(says(words, "EXX, as found and EYX, as found|serial L-118|2026-05-11 08:10 to 10:20|\n"));
    CHECK(says(words, "EXX, adjusted|serial L-118|2026-05-11 12:00 to 13:00|\n"));
    CHECK(says(words, "EXX, as left|serial L-118|2026-05-11 22:00 to 23:00|\n"));
}

TEST_CASE("certificates of one issuer name it once, and a trace that begins with the SI is not led to it through itself") {
    auto document = measured_by_two();
    document.instruments[0].traceable_to = document.instruments[1].traceable_to = "the SI, through the standards of Exampleland";
    document.instruments[1].certificate = "K-55122";
    document.instruments[1].certified_by = document.instruments[0].certified_by;
    const std::string words = facts_of(document);
    CHECK(says(words, "Every instrument is traceable to the SI, through the standards of Exampleland. Certificates: Example calibration "
                      "laboratory.\n"));
    CHECK(words.find("SI through the SI") == std::string::npos);
    CHECK(says(words, "Instrument|certificate|calibrated|due|\n"));
    CHECK(words.find("Example calibration laboratory") == words.rfind("Example calibration laboratory"));
}

TEST_CASE("what all instruments lead to is said once, and two of one serial number are told apart") {
    auto document = measured_by_two();
    document.instruments[1].traceable_to = "the SI unit of length";
    document.instruments[1].serial = "L-118";
    const std::string words = facts_of(document);
    CHECK(says(words, "Instrument|certificate, issuer|calibrated|due|\n"));
    CHECK(says(words, "K-55120, Example calibration laboratory|2026-01-09|not stated|\n"));
    CHECK(says(words, "Every instrument is traceable to the SI unit of length.\n"));
    CHECK(words.find("the SI unit of length") == words.rfind("the SI unit of length"));
    CHECK(says(words, "EXX|Laser interferometer, serial L-118|"));
}

TEST_CASE("a day without a time is the day alone, and no instrument means no table") {
    auto document = measured_by_two();
    document.series = {taken("EXX", "", "laser", "2026-05-11", "2026-05-11")};
    CHECK(says(facts_of(document), "EXX|serial L-118|2026-05-11|\n"));
    document.instruments.clear();
    document.squareness.clear();
    CHECK_FALSE(says(facts_of(document), "traceability"));
}

TEST_CASE("a squareness stands with the quantities as found against as left") {
    document::Document document;
    document.file = "test.json";
    const auto straight = [&](const std::string& symbol, const std::string& state, double far_um) {
        auto series = support::series(symbol, {0, 500, 1000}, {{0, far_um / 2, far_um}}, {{0, far_um / 2, far_um}});
        series.id = symbol + state;
        series.state = state;
        document.series.push_back(series);
    };
    for (const auto& [state, slope] : {std::pair("as-found", 20.0), std::pair("as-left", 4.0)}) {
        straight("EYX", state, slope);
        straight("EXY", state, slope);
        document.squareness.push_back(
            {.axes = {"X", "Y"},
             .series = {std::string("EYX") + state, std::string("EXY") + state},
             .tolerance = document::Tolerance{"squareness", "order", units::microradian(10), units::microradian, {}}});
    }
    const support::Reported reported{.document = document};
    const auto page = report::states(reported.subject());
    REQUIRE(page);
    const auto& row = page->changes.back();
    CHECK(row.name.words() == "Squareness error of X and Y / µrad");
    CHECK(row.first.words() == "\u221240.0");  // -(20 + 20)
    CHECK(row.second.words() == "\u22128.0");
    CHECK(row.change.words() == "32.0");
    CHECK(row.limit.words() == "10");
    CHECK(row.words.words() == "Outside, now inside");
}
