#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "support/documents.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

using namespace wayfolio;
using Catch::Matchers::Contains;

namespace {

evaluate::Findings findings_of(const document::Series& series) {
    const document::Document document = support::document(series);
    return evaluate::findings(document, evaluate::evaluate(document));
}

}  // namespace

TEST_CASE("parameters that one run cannot support are told with the reason, on one line") {
    const std::string text = findings_text(findings_of(support::series("EXX", {0, 250, 500}, {{1, 2, 3}}, {{1, 2, 4}})));
    CHECK_THAT(text, Contains("  s: EXX positioning\n    evaluated: "));
    const std::size_t at = text.find("not evaluated: ");
    REQUIRE(at != std::string::npos);
    const std::string reason_line = text.substr(at, text.find('\n', at) - at);
    CHECK_THAT(reason_line, Contains("A") && Contains(", R") && Contains("("));
}

TEST_CASE("what is missing is grouped by purpose and counted") {
    const evaluate::Findings found = findings_of(support::series("EXX", {0, 250, 500}, {{1, 2, 3}}, {}));
    REQUIRE_FALSE(found.lacking.empty());
    const std::string text = findings_text(found), purpose = "  for " + found.lacking.front().purpose + ":";
    CHECK(text.find(purpose) != std::string::npos);
    CHECK(text.find(purpose) == text.rfind(purpose));
    CHECK_THAT(text, Contains("test.json: 0 faults, "));
}

TEST_CASE("findings as JSON keep conditions apart: false where not met, null where the document leaves them open") {
    const evaluate::Findings found = findings_of(support::series("EXX", {0, 250, 500}, {{1, 2, 3}}, {{1, 2, 4}}));
    const auto json = nlohmann::json::parse(findings_json(found));
    REQUIRE(json.at("supports").size() == 1);
    const auto& conditions = json["supports"][0].at("conditions");
    REQUIRE(conditions.size() == found.supports[0].unmet.size());
    for (std::size_t i = 0; i < conditions.size(); ++i)
        CHECK(conditions[i].at("holds").is_null() == !found.supports[0].unmet[i].holds.has_value());
    CHECK(json["supports"][0].at("not_evaluated").contains("A"));
}

TEST_CASE("a fault with bytes that are not UTF-8 still gives valid JSON") {
    const evaluate::Findings found{
        .file = "f", .faults = {{"f", {1, 2, "/a"}, "\"\xff\"", "text", ""}}, .warnings = {}, .lacking = {}, .supports = {}};
    CHECK(nlohmann::json::parse(findings_json(found)).at("faults")[0].at("line") == 1);
    CHECK_THAT(findings_text(found), Contains("f:1:2: /a: found ") && Contains("f: 1 fault\n"));
}

TEST_CASE("check ends with what to look at before leaving, and never corrects anything") {
    // Five runs each way; the third one in positive direction has its sign turned.
    const evaluate::Findings found = findings_of(support::series(
        "EXX", {0, 100, 210, 290, 400, 500},
        {{0, 4, 8, 12, 16, 20}, {0.1, 4, 8.1, 12, 16.1, 20}, {0, -4, -8, -12, -16.1, -20}, {0, 4.1, 8, 12.1, 16, 20.1}},
        {{-1, 3, 7, 11, 15, 19}, {-1, 3.1, 7, 11, 15.1, 19}, {-1.1, 3, 7, 11.1, 15, 19}}));
    const std::string text = findings_text(found);
    CHECK_THAT(text, Contains("Before leaving the machine:\n") && Contains("the sign looks turned") &&
                         Contains("where: series s, run 3 positive (/series/0/runs/2)"));
    CHECK_THAT(text, Contains("\nBefore leaving, settle at the machine: "));
    const auto json = nlohmann::json::parse(findings_json(found));
    CHECK(json.at("before_leaving").size() == found.before_leaving.size());
    for (const char* key : {"code", "about", "what", "where", "how_sure", "do"})
        CHECK_FALSE(json["before_leaving"][0].at(key).get<std::string>().empty());
    CHECK_FALSE(json.at("last_line").get<std::string>().empty());
}

namespace {

/// A job in which nothing of traceability is missing: two axes, two instruments, a square.
document::Document traceable() {
    auto x = support::series("EXX", {0, 250, 500}, {{1, 2, 3}}, {{1, 2, 4}}), y = support::series("EYX", {0, 250, 500}, {{1, 2, 3}}, {});
    x.id = "x";
    y.id = "y";
    document::Document document;
    document.file = "test.json";
    for (auto& series : {&x, &y}) {
        series->instrument = "laser";
        for (auto& run : series->runs) run.started = "2026-05-11T08:00+02:00";
        document.series.push_back(*series);
    }
    document.machine.emplace().condition = "in use";
    document.instruments.emplace_back();
    auto& laser = document.instruments[0];
    laser.id = "laser";
    laser.certificate = "K-1";
    laser.certified_by = "a laboratory";
    laser.calibrated = "2026-01-09";
    laser.traceable_to = "the SI through a national standard";
    laser.vacuum_wavelength_nm = 632.9912;
    document.environment.emplace().samples.push_back(
        {.time = "2026-05-11T08:00+02:00", .air_C = 20, .pressure_hPa = 1013, .humidity_percent = 50});
    document.squareness.push_back({.axes = {"X", "Y"}, .series = {"y", "y"}, .square_serial = "Q", .square_certificate = "K-2"});
    return document;
}

/// "code: what" of each missing entry that `change` brings about.
std::vector<std::string> newly_missing(const std::function<void(document::Document&)>& change) {
    const auto entries = [](const document::Document& document) {
        std::vector<std::string> lines;
        const auto json = nlohmann::json::parse(findings_json(evaluate::findings(document, evaluate::evaluate(document))));
        for (const auto& lack : json.at("lacking"))
            lines.push_back(lack.at("code").get<std::string>() + ": " + lack.at("what").get<std::string>() + " for " +
                            lack.at("for").get<std::string>());
        return lines;
    };
    auto document = traceable();
    const auto before = entries(document);
    change(document);
    std::vector<std::string> fresh;
    for (const std::string& line : entries(document))
        if (std::find(before.begin(), before.end(), line) == before.end()) fresh.push_back(line);
    return fresh;
}

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("what traceability and the item need is missed with its clause and a code of its own") {
    CHECK(newly_missing([](auto& d) { d.machine->condition.clear(); }) ==
          Lines{"machine-condition-missing: condition of the machine for ISO/IEC 17025 7.8.2.1 g"});
    CHECK(newly_missing([](auto& d) { d.instruments[0].traceable_to.clear(); }) ==
          Lines{"traceability-missing: traceability to the SI of instrument laser for ISO/IEC 17025 7.8.4.1 c"});
    CHECK(newly_missing([](auto& d) { d.instruments[0].certified_by.clear(); }) ==
          Lines{"missing-for-accreditation: issuer of the certificate of instrument laser for ISO/IEC 17025 7.8.4.1 c"});
    CHECK(newly_missing([](auto& d) { d.series[1].runs[0].started.clear(); }) ==
          Lines{"series-time-missing: time of the runs of EYX for ISO/IEC 17025 7.8.2.1 i"});
    CHECK(newly_missing([](auto& d) { d.series[1].instrument.clear(); }).front() ==
          "series-instrument-missing: instrument of EYX for ISO/IEC 17025 7.8.4.1 c");
    CHECK(newly_missing([](auto& d) { d.instruments[0].vacuum_wavelength_nm.reset(); }) ==
          Lines{"wavelength-assumed: vacuum wavelength of instrument laser; 632.9912 nm is assumed for uncertainty"});
    CHECK(newly_missing([](auto& d) { d.squareness[0].square_certificate.clear(); }) ==
          Lines{"missing-for-accreditation: certificate of the square for X and Y for ISO/IEC 17025 7.8.4.1 c"});
    // The job's dates say when its only series was measured.
    CHECK(newly_missing([](auto& d) {
              d.series.pop_back();
              d.squareness.clear();
              d.job.measured_from = "2026-05-11";
              for (auto& run : d.series[0].runs) run.started.clear();
          }).empty());
}

TEST_CASE("the condition of the machine, times and instruments of series are settled at the machine") {
    auto document = traceable();
    document.machine->condition.clear();
    document.series[1].runs[0].started.clear();
    const std::string text = findings_text(evaluate::findings(document, evaluate::evaluate(document)));
    const std::size_t begin = text.find("Before leaving the machine:");
    const std::string machine = text.substr(begin, text.find("At the desk:") - begin);
    CHECK_THAT(machine, Contains("the condition of the machine is not stated [machine-condition-missing]") &&
                            Contains("the time of the runs of EYX is not stated [series-time-missing]"));
}

TEST_CASE("a wavelength that is assumed is named among the defaults, one that is stated is not") {
    const auto sentence = [](const document::Document& document) {
        for (const std::string& used : evaluate::evaluate(document).defaults_used)
            if (used.find("wavelength") != std::string::npos) return used;
        return std::string();
    };
    auto document = traceable();
    CHECK(sentence(document).empty());
    document.instruments[0].vacuum_wavelength_nm.reset();
    CHECK(sentence(document) ==
          "No vacuum wavelength stated for instrument laser: 632.9912 nm (helium-neon) is assumed for the refractive index of air.");
    document.environment->samples[0].humidity_percent.reset();  // no index, no wavelength
    CHECK(sentence(document).empty());
}

namespace {

bool has_code(const evaluate::Findings& found, evaluate::FindingCode code) {
    return std::ranges::find(found.before_leaving, code, &evaluate::BeforeLeaving::code) != found.before_leaving.end();
}

/// Readings that are `factor` times their targets, with a little scatter.
document::Series grown(double factor, const units::DeviationUnit& unit, const char* error = "EXX") {
    const std::vector<double> targets{0, 100, 210, 290, 400, 500};
    std::vector<double> up, down;
    for (const double target : targets) {
        up.push_back(factor * target + 0.004 * std::sin(target));
        down.push_back(factor * target + 0.003 * std::cos(target));
    }
    return support::series(error, targets, {up, up}, {down, down}, unit);
}

}  // namespace

TEST_CASE("positions written in place of deviations are a finding and a warning") {
    using evaluate::FindingCode;
    // In the unit of the targets, in µm for mm (the same growth by other numbers), by numbers alone, and with the other sign.
    for (const auto& series : {grown(1, units::millimetre), grown(1000, units::micrometre), grown(1, units::micrometre),
                               grown(-1, units::millimetre), grown(1, units::millimetre, "EYX")}) {
        const auto found = findings_of(series);
        CHECK(has_code(found, FindingCode::PositionsAsReadings));
        REQUIRE_FALSE(found.warnings.empty());
        CHECK(found.warnings[0].pointer == "/series/0/runs");
        CHECK_THAT(found.warnings[0].text, Contains("they look like positions, not like deviations from the targets"));
        CHECK_THAT(findings_text(found), Contains("[positions-as-readings]"));
        CHECK(found.before_leaving.front().code == FindingCode::PositionsAsReadings);
    }
}

TEST_CASE("deviations are not taken for positions, however steep they are") {
    using evaluate::FindingCode;
    // 12 µm/m of growth; 1 000 µm/m in µm with an offset; straightness across a slope of 1 mm/m; a flat axis.
    auto steep = grown(1, units::micrometre);
    for (auto& run : steep.runs)
        for (auto& reading : run.deviations) reading = *reading + units::Deviation(units::micrometre(40));
    for (const auto& series : {grown(0.012, units::micrometre), steep, grown(1, units::micrometre, "EYX"), grown(0, units::micrometre)})
        CHECK_FALSE(has_code(findings_of(series), FindingCode::PositionsAsReadings));
}
