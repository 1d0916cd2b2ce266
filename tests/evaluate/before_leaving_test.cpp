#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/review/conditions/conditions.hpp"
#include "evaluate/review/hints.hpp"
#include "evaluate/review/readings/gross_errors.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/surroundings/surroundings.hpp"
#include "support/evaluations.hpp"
#include "support/simulated_axis.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace wayfolio;
using namespace wayfolio::evaluate;

namespace {

/// A 6 m axis with five runs each way and nothing wrong in its readings.
document::Document long_job() {
    support::AxisPlan plan;
    plan.length_mm = 6000;
    plan.targets = 26;
    return support::simulated_job(3, plan, {});
}

Evaluation evaluation_of(const document::Document& document) {
    Evaluation evaluation;
    evaluation.series = {evaluate_positioning(document, document.series[0])};
    evaluation.series[0].conditions = test_conditions(document, document.series[0], evaluation.series[0].targets);
    evaluation.setup = evaluate_setup(document);
    evaluation.cosine = evaluate_cosine(document);
    evaluation.environment = evaluate_environment(document);
    evaluation.hints = evaluate_hints(document, evaluation.series);
    return evaluation;
}

const BeforeLeaving* line_with(const std::vector<BeforeLeaving>& lines, const std::string& part) {
    const auto found =
        std::find_if(lines.begin(), lines.end(), [&](const auto& line) { return line.what.find(part) != std::string::npos; });
    return found == lines.end() ? nullptr : &*found;
}

ParameterUncertainty uncertainty_of_E(double um) {
    const Deviation expanded{units::micrometre(um)};
    return {.series = "x",
            .parameter = "E",
            .axes = {},
            .length_mm = {},
            .source = Source::Runs,
            .unit = units::micrometre,
            .expanded = expanded,
            .standard = expanded / 2,
            .degrees_of_freedom = {},
            .contributors = {},
            .standard_at_setting_targets = {},
            .expanded_at_setting_targets = {},
            .monte_carlo = {}};
}

}  // namespace

TEST_CASE("a set-up check outside its limit is told with reading and limit") {
    auto document = long_job();
    document.setup.emplace();
    document.setup->checks = {support::beam_offset("signal", 0, 51)};
    document.setup->checks[0].unit = "percent";
    document.setup->checks[0].at_least = 60;
    const auto lines = before_leaving(document, evaluation_of(document));
    const auto* line = line_with(lines, "set-up check \"signal\"");
    REQUIRE(line);
    CHECK(line->what.find("read 51 percent, at least 60 percent") != std::string::npos);
    CHECK(line->where == "set-up check 1 (/setup/checks/0)");
}

TEST_CASE("a cosine error above a tenth of U(E) is a warning, one below is none") {
    auto document = long_job();
    document.setup.emplace();
    document.setup->checks = {support::beam_offset("beam offset, near end", 0, 0.0),
                              support::beam_offset("beam offset, far end", 6000, 3.0)};  // 0.75 µm over 6 m
    auto evaluation = evaluation_of(document);
    evaluation.uncertainty = {uncertainty_of_E(5)};
    REQUIRE(cosine_warnings(document, evaluation).size() == 1);
    CHECK(cosine_warnings(document, evaluation)[0].pointer == "/setup/checks/1");
    CHECK(line_with(before_leaving(document, evaluation), "more than a tenth of U(E)"));
    evaluation.uncertainty = {uncertainty_of_E(8)};
    CHECK(cosine_warnings(document, evaluation).empty());
}

TEST_CASE("an environment that moves during a run is told with its effect over the travel") {
    auto document = long_job();
    document.machine->axes[0].expansion = document::Expansion{11.7, {}, {}};
    document.environment.emplace();
    // Run 3 stands from 08:10 to 08:14: the machine warms by 0.1 K in it, 7 µm over 6 m.
    for (const auto& [time, t] :
         std::vector<std::pair<std::string, double>>{{"08:00", 20.0}, {"08:10", 20.0}, {"08:14", 20.1}, {"08:50", 20.1}}) {
        document::EnvironmentSample sample;
        sample.time = "2026-05-11T" + time + "Z";
        sample.machine_C = {{"bed", t}};
        document.environment->samples.push_back(sample);
    }
    const auto lines = before_leaving(document, evaluation_of(document));
    const auto* line = line_with(lines, "the environment moved during a run by as much as 7.0 µm");
    REQUIRE(line);
    CHECK(line->where == "series x, run 2 positive (/series/0/runs/2)");
}

TEST_CASE("a drift record shorter than the test is told") {
    auto document = long_job();
    document.drift = {{"X", "EXX", 0, {{"2026-05-11T09:00Z", 0.0}, {"2026-05-11T09:10Z", 0.3}}}};
    CHECK(line_with(before_leaving(document, evaluation_of(document)),
                    "the drift record is shorter (10 min) than the test (49 min)"));
}

TEST_CASE("a test made by agreement does not stand in the way") {
    auto document = long_job();
    CHECK(line_with(before_leaving(document, evaluation_of(document)), "over 6"));
    document.evaluation.agreed = {"five runs over 2 m"};
    CHECK_FALSE(line_with(before_leaving(document, evaluation_of(document)), "over 6"));
}

TEST_CASE("missing entries of one standard share a line") {
    const auto document = long_job();
    auto evaluation = evaluation_of(document);
    evaluation.lacking = {{"ISO/IEC 17025 7.8.2.1 a", "title", "/job/title"},
                          {"ISO/IEC 17025 7.8.2.1 j", "date of issue", "/job/issued"},
                          {"decision", "limits for EXX", "/series/0/tolerances"}};
    const auto lines = before_leaving(document, evaluation);
    CHECK(line_with(lines, "missing for ISO/IEC 17025: title; date of issue"));
    CHECK(line_with(lines, "missing for decision: limits for EXX"));
}

TEST_CASE("a straightness reference far off the axis is told, a straight one is not") {
    const auto rises = [](double um_per_m) {
        auto document = support::document(
            support::series("EYX", {0, 500, 1000}, {{0, um_per_m / 2 + 2, um_per_m}}, {{0, um_per_m / 2 + 2, um_per_m}}));
        Evaluation evaluation;
        SeriesEvaluation series = evaluate_positioning(document, document.series[0]);
        series.kind = SeriesKind::Straightness;
        series.lines = {{document::ReferenceLine::LeastSquares, units::micrometre(2), units::micrometre_per_metre(um_per_m),
                         units::micrometre(0), units::micrometre(2)}};
        evaluation.series = {series};
        return line_with(before_leaving(document, evaluation), "the straightness reference is not along the axis") != nullptr;
    };
    CHECK(rises(60));
    CHECK_FALSE(rises(30));
}

TEST_CASE("a series copied to another is told once, with both; a part of it, or numbers too much alike, tell nothing") {
    document::Document document = long_job();
    auto other = support::simulated_job(4, {}, {}).series[0];
    other.id = "other";
    other.error = {'Y', "X"};
    document.series.push_back(other);
    std::vector<BeforeLeaving> lines;
    add_copied_series(lines, document);
    CHECK(lines.empty());
    document.series[1].targets = document.series[0].targets;
    document.series[1].runs = document.series[0].runs;
    add_copied_series(lines, document);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].code == FindingCode::RunCopied);
    CHECK(lines[0].what == "all runs of series other stand in series " + document.series[0].id +
                               " to the last digit: one looks copied from the other");
    CHECK(lines[0].where.find("/series/1/runs/0") != std::string::npos);
    lines.clear();
    document.series[1].runs[3].deviations[0] = units::micrometre(99.5);
    add_copied_series(lines, document);
    CHECK(lines.empty());
    for (auto& series : document.series)
        for (auto& run : series.runs)
            for (std::size_t i = 0; i < run.deviations.size(); ++i) run.deviations[i] = units::micrometre(static_cast<double>(i % 3));
    lines.clear();
    add_copied_series(lines, document);
    CHECK(lines.empty());
}

TEST_CASE("readings so quiet that runs differ by rounding alone are no mix-up, and nothing stumbles over them") {
    support::AxisPlan plan;
    plan.noise_um = 0.12;
    for (const std::size_t targets : {5U, 9U, 13U})
        for (std::uint64_t seed = 1; seed <= 100; ++seed) {
            plan.targets = targets;
            CAPTURE(targets, seed);
            document::Document document = support::simulated_job(seed, plan, {});
            for (auto& run : document.series[0].runs)
                for (auto& reading : run.deviations) reading = Deviation(std::round(reading->in(units::micrometre)), units::micrometre);
            const Evaluation evaluation = evaluation_of(document);
            CHECK(find_gross_errors(run_residuals(document.series[0], evaluation.series[0]), units::Dimension::Length).empty());
        }
}

TEST_CASE("the sentence at the end is an all-clear only where nothing needs the machine") {
    const auto finding = [](FindingCode code) { return BeforeLeaving{code, "", "", "", ""}; };
    const auto missing = finding(FindingCode::MissingForUncertainty), differs = finding(FindingCode::StatedValueDiffers);
    CHECK(last_line({}) == "Nothing left to do at the machine.");
    CHECK(last_line({finding(FindingCode::RunsUnequal)}) == "Nothing left to do at the machine.");
    CHECK(last_line({missing}) == "Machine work complete; still missing in the document: entries for uncertainty.");
    CHECK(last_line({finding(FindingCode::MissingForAccreditation), missing, differs, differs}) ==
          "Machine work complete; still missing in the document: entries for ISO/IEC 17025, uncertainty; for the desk: 2 findings.");
    CHECK(last_line({finding(FindingCode::RunApart), finding(FindingCode::EnvironmentMissing), missing}) ==
          "Before leaving, settle at the machine: 1 finding in the readings, 1 finding in the evidence that cannot be recorded "
          "later; still missing in the document: entries for uncertainty.");
    for (const KnownFinding& known : known_findings()) {
        CAPTURE(known.word);
        const bool all_clear = last_line({finding(known.code)}).starts_with("Before leaving") == false;
        CHECK(all_clear == (known.concern == Concern::Papers || known.concern == Concern::Information));
    }
}
