#include "document/reading_help.hpp"
#include "input/digest.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>

using namespace wayfolio;
using namespace wayfolio::document;

namespace {

const std::filesystem::path good_folder = std::filesystem::path(WAYFOLIO_SOURCE_FOLDER) / "tests/document/good";

Series series_of(const std::string& members, const SideFiles& files = {}) { return read_text(one_series(members), files).series.at(0); }

constexpr const char* linear_head = R"("error": "EXX", "unit": "um", "position_unit": "mm", )";

}  // namespace

TEST_CASE("the smallest document gives its readings, and nothing else") {
    const Document document = read_document(good_folder / "smallest.json");
    REQUIRE(document.series.size() == 1);
    const Series& series = document.series[0];
    CHECK(series.targets.size() == 3);
    CHECK(series.targets[2].position.in(units::position_millimetre) == 200);
    CHECK(series.runs[1].approach == Approach::Negative);
    CHECK(series.runs[0].used(1)->in(units::micrometre) == 0.4);
    CHECK_FALSE(series.sign_stated);
    CHECK_FALSE(document.machine);
    CHECK_FALSE(document.evaluation.standard);
    CHECK(document.sha256 == input::sha256_hex(document.bytes));
}

TEST_CASE("a byte-order mark stays in the kept bytes") {
    CHECK(read_document(good_folder / "byte-order-mark.json").bytes.substr(0, 3) == "\xEF\xBB\xBF");
}

TEST_CASE("a $schema for editors is passed over, and stays in the kept bytes") {
    const Document with = read_document(good_folder / "with-schema.json"), without = read_document(good_folder / "smallest.json");
    CHECK(with.series[0].runs[1].used(2)->in(units::micrometre) == without.series[0].runs[1].used(2)->in(units::micrometre));
    CHECK(with.bytes.find("$schema") != std::string::npos);
}

TEST_CASE("every key of the format is read: job, machine, instruments") {
    const Document document = read_document(good_folder / "everything.json");
    CHECK(document.job.status == Status::Draft);
    CHECK(document.job.data_notice == "Invented data");
    CHECK(document.job.laboratory->capability.at(1).parameter == "slope");
    CHECK(document.job.laboratory->logo == "logo.svg");
    CHECK(document.job.laboratory->country == "GR");
    CHECK(document.job.place_kind == PlaceKind::CustomerBranch);
    CHECK(document.job.replaces->revision == 0);
    CHECK(document.job.people.at(0).role == "measured by");
    CHECK(document.machine->vertical == "Z");
    CHECK(find_axis(document, "X")->travel->to.in(units::position_millimetre) == -6400);
    CHECK(find_axis(document, "X")->expansion->coverage_factor == 2.0);
    CHECK(find_axis(document, "Y")->moves == Moves::Workpiece);
    CHECK(find_axis(document, "C")->kind == AxisKind::Rotary);
    CHECK(find_instrument(document, "laser")->positioning->per_metre == 0.6);
    CHECK(find_instrument(document, "laser")->straightness->per_metre == 0);
    CHECK(find_instrument(document, "laser")->certified_by == "d");
    CHECK(find_instrument(document, "laser")->traceable_to == "e");
    CHECK(find_instrument(document, "laser")->vacuum_wavelength_nm == 543.5);
    CHECK(document.machine->condition == "in use");
    REQUIRE(document.side_files.size() == 2);
    CHECK(document.side_files[0].name == "logo.svg");
}

TEST_CASE("every key of the format is read: environment, set-up, requests") {
    const Document document = read_document(good_folder / "everything.json");
    CHECK(document.environment->samples.at(0).machine_C == std::vector<std::pair<std::string, double>>{{"bed", 20.4}});
    CHECK(document.environment->samples.at(0).co2_ppm == 450.0);
    CHECK(document.setup->checks.at(2).done == true);
    CHECK(document.setup->checks.at(0).read_on == ReadOn::ReturningBeam);
    CHECK(document.setup->checks.at(1).read_on == ReadOn::OutgoingBeam);
    CHECK(document.setup->lines.at(0).offset_to_tool_point_mm->at(2) == 150);
    CHECK(document.setup->feed_deg_per_min == 360.0);
    CHECK(document.evaluation.also.size() == 2);
    CHECK(document.evaluation.decision_rule == DecisionRule::GuardBandBothSides);
    CHECK(document.evaluation.monte_carlo->seed == 18446744073709551615U);
    CHECK(document.evaluation.local_straightness_mm == std::vector<double>{300, 1000});
    CHECK(document.uncertainty.contributors.at(1).form == Contributor::Form::HalfWidth);
    CHECK(document.uncertainty.contributors.at(1).unit == "um/m");
    CHECK(document.uncertainty.contributors.at(1).influence == Influence::Drift);
    CHECK_FALSE(document.uncertainty.contributors.at(0).influence);
    CHECK(document.evaluation.air_correction == AirCorrectionRequest::FromRecord);
    CHECK(document.uncertainty.contributors.at(2).coverage_factor == 2.0);
    CHECK(document.uncertainty.stated.at(0).expanded.in(units::micrometre) == 2.4);
    CHECK(document.drift.at(0).samples_um.at(0).first == "2026-05-11T08:10Z");
    CHECK(document.squareness.at(0).series[1] == "exy");
    CHECK(document.squareness.at(0).square_certificate == "t");
    CHECK(document.squareness.at(0).tolerance->limit.in(units::arcsecond) == 20);
    CHECK(document.compensation.at(0).table == TableKind::Both);
    CHECK(document.compensation.at(1).spacing == 30);
}

TEST_CASE("readings are actual minus target whatever the document's sign") {
    const Document document = read_document(good_folder / "everything.json");
    const Series& series = *find_series(document, "x");
    CHECK(series.target_minus_actual);
    CHECK(series.runs[0].deviations[0]->in(units::micrometre) == -0.1);
    CHECK(series.stated[1].parameter == "B_mean");
    CHECK(series.stated[1].value.in(units::micrometre) == 0.5);
    CHECK(series.stated[0].value.in(units::micrometre) == 22.1);
    CHECK(series.stated_targets[0].mean.negative->in(units::micrometre) == -2);
    CHECK(series.stated_targets[0].s.positive->in(units::micrometre) == 0.1);
    CHECK(series.trace->samples[0].value.in(units::micrometre) == -0.5);
}

TEST_CASE("no negative zero comes out of either sign") {
    for (const char* sign : {"actual-minus-target", "target-minus-actual"}) {
        const Series series = series_of(std::string(linear_head) + R"("sign": ")" + sign + R"(", "targets": [-0.0, 1],
            "runs": [{"approach": "positive", "deviations": [0, -0.0]}])");
        CHECK_FALSE(std::signbit(series.runs[0].deviations[0]->in(units::micrometre)));
        CHECK_FALSE(std::signbit(series.runs[0].deviations[1]->in(units::micrometre)));
        CHECK_FALSE(std::signbit(series.targets[0].written));
    }
}

TEST_CASE("an excluded reading keeps its value and does not take part; a missing one is empty") {
    const Document document = read_document(good_folder / "everything.json");
    const Run& run = find_series(document, "x")->runs[0];
    CHECK(run.exclusion(1)->reason == "beam interrupted");
    CHECK_FALSE(run.deviations[1]);
    CHECK_FALSE(run.used(1));
    const Series series = series_of(std::string(linear_head) + R"("targets": [0, 1], "runs": [{"approach": "positive",
        "deviations": [5, 6], "excluded": [{"target": 0, "reason": "r"}]}])");
    CHECK(series.runs[0].deviations[0]->in(units::micrometre) == 5);
    CHECK_FALSE(series.runs[0].used(0));
    CHECK(series.runs[0].used(1)->in(units::micrometre) == 6);
}

TEST_CASE("units of deviations and positions are converted by their definitions") {
    // 1 in = 25.4 mm exactly (1959 agreement); 1 arcsec = pi/648000 rad.
    const Series inches = series_of(R"("error": "EYX", "unit": "uin", "position_unit": "in", "targets": [10],
        "runs": [{"approach": "positive", "deviations": [100]}])");
    CHECK(inches.targets[0].position.in(units::position_millimetre) == 254);
    CHECK(inches.targets[0].written == 10);
    CHECK(inches.runs[0].deviations[0]->in(units::micrometre) == Approx(2.54).epsilon(1e-15));
    const Series seconds = series_of(R"("error": "ECC", "unit": "arcsec", "position_unit": "deg", "targets": [90],
        "runs": [{"approach": "positive", "deviations": [1]}])");
    CHECK(seconds.runs[0].deviations[0]->in(units::microradian) == Approx(4.84813681109536).epsilon(1e-14));
}

TEST_CASE("deviations of a rotary axis are taken within half a turn of their target, those of others as they are") {
    const Series turned = series_of(R"("error": "ECC", "unit": "deg", "position_unit": "deg", "targets": [0, 90, 180, 270],
        "runs": [{"approach": "positive", "deviations": [359.9992, -359.5, 180, -180]}])");
    const auto& read = turned.runs[0].deviations;
    CHECK(read[0]->in(units::arcsecond) == Approx(-0.0008 * 3600).epsilon(1e-9));
    CHECK(read[1]->in(units::arcsecond) == Approx(0.5 * 3600).epsilon(1e-12));
    CHECK(read[2]->in(units::arcsecond) == Approx(180 * 3600));
    CHECK(std::abs(read[3]->in(units::arcsecond)) == Approx(180 * 3600));
    const Series tilted = series_of(
        R"("error": "EBX", "unit": "deg", "position_unit": "mm", "targets": [0], "runs": [{"approach": "positive", "deviations": [359]}])");
    CHECK(tilted.runs[0].deviations[0]->in(units::arcsecond) == Approx(359 * 3600));
}

TEST_CASE("a stated value agrees to half a unit of its last written digit") {
    const Series series = series_of(std::string(linear_head) + R"("stated": {"A": 22.1, "E": 22, "R": 2.20e1, "B": 1e2, "M": 0.050})");
    const auto half = [&](std::size_t place) { return series.stated.at(place).half_last_digit.in(units::micrometre); };
    CHECK(series.stated[0].parameter == "A");
    CHECK(half(0) == 0.05);
    CHECK(half(1) == 0.5);     // E
    CHECK(half(2) == 0.05);    // R: 22.0
    CHECK(half(3) == 50);      // B: the digit written counts hundreds
    CHECK(half(4) == 0.0005);  // M
}

TEST_CASE("angle steps: the first station has no reading, the others stand at their farther station") {
    const Document document = read_document(good_folder / "everything.json");
    const Series& steps = *find_series(document, "steps");
    CHECK(steps.steps_base_mm == 100.0);
    REQUIRE(steps.runs[0].deviations.size() == 3);
    CHECK_FALSE(steps.runs[0].deviations[0]);
    CHECK(steps.runs[0].deviations[1]->in(units::arcsecond) == Approx(1));
    CHECK(steps.stated[0].value.in(units::micrometre) == 2.5);
}

TEST_CASE("a series may have stated values only, or a trace only") {
    const Document document = read_document(good_folder / "everything.json");
    CHECK(find_series(document, "stated")->runs.empty());
    CHECK(find_series(document, "stated")->stated.size() == 1);
    CHECK(find_series(document, "trace")->trace->samples.at(1).position.in(units::position_millimetre) == 0.5);
}

TEST_CASE("a contributor given by its half width is rectangular unless it says otherwise") {
    const std::string text =
        R"({"format": "wayfolio-result", "version": 1, "series": [{"id": "x", "error": "EXX", "unit": "um", "position_unit": "mm",
        "stated": {"A": 1}}], "uncertainty": {"contributors": [{"name": "a", "applies_to": ["EXX"], "half_width": 1, "unit": "um"},
        {"name": "b", "applies_to": ["EXX"], "standard": 1, "unit": "um"}]}})";
    const Document document = read_text(text);
    CHECK(document.uncertainty.contributors[0].distribution == Distribution::Rectangular);
    CHECK(document.uncertainty.contributors[1].distribution == Distribution::Normal);
}

TEST_CASE("where readings came from: files with their digests, those that are kept, and the mapping") {
    const Document document = read_document(good_folder / "everything.json");
    const auto series = std::ranges::find_if(document.series, [](const Series& one) { return one.origin.has_value(); });
    REQUIRE(series != document.series.end());
    const Origin& origin = *series->origin;
    REQUIRE(origin.files.size() == 2);
    CHECK(origin.files[0].file == "x.csv");
    CHECK(origin.files[0].kept.empty());
    CHECK(origin.files[1].kept == "trace.csv");
    CHECK(origin.files[1].sha256 == "33d563e5ae2af041b2c5e255282f665fde1229de10bbd369298fa71cd4ea6f35");
    CHECK(origin.mapping->file == "m.json");
    CHECK(origin.series == "x");
    REQUIRE(document.environment);
    CHECK(document.environment->origin->files.front().file == "log.csv");
}
