#pragma once
#include "evaluate/numbers/monte_carlo.hpp"
#include "evaluate/review/conditions/conditions.hpp"
#include "evaluate/review/hints.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/series/angles.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/uncertainty/conformity.hpp"
#include "support/documents.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <string>
#include <vector>

/// Seeded jobs on axes as they come, clean or with one fault planted, and what is said of their readings: for rates of alarms. The
/// scatter of a reading is 0.3 µm; 13 to 49 targets, five runs each way.
namespace wayfolio::support {

inline constexpr double job_scatter_um = 0.3;

enum class Axis { Flat, Sloped, Wavy, ReversalChanges, RunsScatter, RunsScatterLittle, Coarse };

/// A run as it was, before it is written down.
struct JobRun {
    bool positive = true;
    std::vector<double> truth, readings;  ///< µm
};

/// One job before it becomes a document. Runs alternate, five minutes each.
struct Job {
    double length_mm = 1000, resolution_um = 0.01;
    std::vector<double> targets;  ///< mm, as written
    std::vector<JobRun> runs;
    std::string id = "x", state = "as-left";
};

inline std::size_t drawn_index(evaluate::Draws& draws, std::size_t from, std::size_t below) {
    return std::min(below - 1, from + static_cast<std::size_t>(draws.rectangular(0, static_cast<double>(below - from))));
}

inline double drawn_sign(evaluate::Draws& draws) { return draws.rectangular(-1, 1) < 0 ? -1 : 1; }

/// Targets over the length with a random part of ± 0.3 of the interval, as ISO 230-2 asks for.
inline std::vector<double> drawn_targets(evaluate::Draws& draws, double length, std::size_t count) {
    std::vector<double> targets;
    const double pitch = length / static_cast<double>(count - 1);
    for (std::size_t i = 0; i < count; ++i) {
        const double jitter = i == 0 || i + 1 == count ? 0 : draws.rectangular(-0.3, 0.3);
        targets.push_back(std::round(1000 * pitch * (static_cast<double>(i) + jitter)) / 1000);
    }
    return targets;
}

inline Job drawn_job(evaluate::Draws& draws, Axis axis) {
    Job job;
    job.length_mm = std::round(draws.rectangular(400, 2000));
    job.targets = drawn_targets(draws, job.length_mm, drawn_index(draws, 13, 50));
    job.resolution_um = axis == Axis::Coarse ? 1 : draws.rectangular(0, 1) < 0.5 ? 0.1 : 0.01;
    const double shaped = axis == Axis::Flat ? 0 : 1;
    const double lead = shaped * drawn_sign(draws) * draws.rectangular(4, 10), bow = shaped * draws.rectangular(-3, 3);
    const double reversal = axis == Axis::Flat ? 0 : drawn_sign(draws) * draws.rectangular(1, 3), change = draws.rectangular(1, 3);
    const double period = job.length_mm / draws.rectangular(3.2, static_cast<double>(job.targets.size()) / 2.2),
                 phase = draws.rectangular(0, 2 * units::pi);
    for (int order = 0; order < 10; ++order) {
        JobRun run{.positive = order % 2 == 0, .truth = {}, .readings = {}};
        const double offset = axis == Axis::RunsScatter         ? draws.normal(0, 0.2)
                              : axis == Axis::RunsScatterLittle ? draws.normal(0, 0.08)
                                                                : 0;
        for (const double x : job.targets) {
            const double t = x / job.length_mm;
            const double here = axis == Axis::ReversalChanges ? reversal + change * t : reversal;
            const double wave = axis == Axis::Wavy ? std::sin(2 * units::pi * x / period + phase) : 0;
            run.truth.push_back(lead * x / 1000 + bow * std::sin(units::pi * t) + wave + (run.positive ? 0.5 : -0.5) * here);
            run.readings.push_back(run.truth.back() + offset + draws.normal(0, job_scatter_um));
        }
        job.runs.push_back(std::move(run));
    }
    return job;
}

/// The readings of a run in the order of travel.
inline std::vector<std::size_t> way_of(const JobRun& run) {
    std::vector<std::size_t> way(run.readings.size());
    std::iota(way.begin(), way.end(), std::size_t{0});
    if (!run.positive) std::reverse(way.begin(), way.end());
    return way;
}

inline document::Series series_of(const Job& job, const std::string& symbol = "EXX", const units::DeviationUnit& unit = units::micrometre) {
    document::Series series = support::series(symbol, job.targets, {}, {}, unit);
    series.id = job.id;
    series.state = job.state;
    for (std::size_t order = 0; order < job.runs.size(); ++order) {
        std::vector<double> readings = job.runs[order].readings;
        for (double& reading : readings) reading = std::round(reading / job.resolution_um) / std::round(1 / job.resolution_um);
        series.runs.push_back(run(job.runs[order].positive ? document::Approach::Positive : document::Approach::Negative, readings, unit));
        const auto clock = [](std::size_t minute) {
            return "2026-05-11T" + std::string(minute < 600 ? "0" : "") + std::to_string(minute / 60) + (minute % 60 < 10 ? ":0" : ":") +
                   std::to_string(minute % 60) + "Z";
        };
        series.runs.back().started = clock(480 + 5 * order);
        series.runs.back().ended = clock(484 + 5 * order);
    }
    return series;
}

inline document::Document document_of(const Job& job) {
    document::Document document = support::document(series_of(job));
    add_axis(document, "X", 0, job.length_mm);
    return document;
}

/// What is said of readings, targets, states, planes and limits; papers, evidence and set-up are left out.
inline std::vector<evaluate::BeforeLeaving> said_of(const document::Document& document) {
    evaluate::Evaluation evaluation;
    for (const auto& series : document.series)
        evaluation.series.push_back(
            series.error.kind() == document::ErrorKind::Positioning ? evaluate::evaluate_positioning(document, series)
            : series.error.kind() == document::ErrorKind::Angle     ? evaluate::evaluate_angle(document, series)
                                                                    : evaluate::evaluate_straightness(document, series));
    evaluation.hints = evaluate::evaluate_hints(document, evaluation.series);
    evaluation.decisions = evaluate::decide(document, evaluation);
    std::vector<evaluate::BeforeLeaving> lines;
    evaluate::add_reading_concerns(lines, document, evaluation);
    evaluate::add_state_concerns(lines, document, evaluation);
    evaluate::add_plane_concerns(lines, document, evaluation);
    evaluate::add_limit_concerns(lines, document, evaluation);
    return lines;
}

inline bool names(const std::vector<evaluate::BeforeLeaving>& lines, evaluate::FindingCode code) {
    return std::any_of(lines.begin(), lines.end(), [&](const auto& line) { return line.code == code; });
}

/// Whether anything but properties of the machine is told; limits that differ are for the desk, and count.
inline bool alarms(const std::vector<evaluate::BeforeLeaving>& lines) {
    return std::any_of(lines.begin(), lines.end(),
                       [](const auto& line) { return evaluate::concern(line.code) != evaluate::Concern::Information; });
}

/// A kind of clean job.
struct CleanClass {
    const char* name;
    std::function<document::Document(evaluate::Draws&)> make;
};
std::vector<CleanClass> clean_classes();

/// A fault as it is planted, and the code that names it.
struct PlantedFault {
    const char* name;
    evaluate::FindingCode code;
    std::function<document::Document(evaluate::Draws&)> make;
    double wanted = 0.9;  ///< share of jobs that must be found and named: less where theory bounds it
};
std::vector<PlantedFault> planted_faults();

}  // namespace wayfolio::support
