#include "support/fault_jobs.hpp"

#include "evaluate/series/targets.hpp"

namespace wayfolio::support {
namespace {

using document::Document;
using evaluate::Draws;
using evaluate::FindingCode;

constexpr double sigma = job_scatter_um;

/// A job on a sloped axis with something done to it.
std::function<Document(Draws&)> planted(std::function<void(Draws&, Job&)> fault) {
    return [fault = std::move(fault)](Draws& draws) {
        Job job = drawn_job(draws, Axis::Sloped);
        fault(draws, job);
        return document_of(job);
    };
}

std::size_t drawn_run(Draws& draws, const Job& job) { return drawn_index(draws, 0, job.runs.size()); }

void add_step(Job& job, std::size_t run, std::size_t from, double by) {
    const auto way = way_of(job.runs[run]);
    for (std::size_t i = from; i < way.size(); ++i) job.runs[run].readings[way[i]] += by;
}

void add_to_run(Job& job, std::size_t run, double by) { add_step(job, run, 0, by); }

void miss_count(Draws& draws, Job& job, bool stays) {
    const std::size_t run = drawn_run(draws, job), m = job.targets.size();
    const double by = drawn_sign(draws);
    add_step(job, run, drawn_index(draws, 1, m - 1), by);
    for (std::size_t later = run + 1; stays && later < job.runs.size(); ++later) add_to_run(job, later, by);
}

void jump(Draws& draws, Job& job) {
    const std::size_t first = drawn_index(draws, 2, job.runs.size() - 1);
    const double by = drawn_sign(draws) * 3 * sigma;
    for (std::size_t run = first; run < job.runs.size(); ++run) add_to_run(job, run, by);
}

/// Over the whole job; of growth at the far end, growing from the first target on.
void change_over_time(Draws& draws, Job& job, double um, bool growth) {
    const double by = drawn_sign(draws) * um;
    for (std::size_t run = 0; run < job.runs.size(); ++run)
        for (std::size_t i = 0; i < job.targets.size(); ++i)
            job.runs[run].readings[i] +=
                by * static_cast<double>(run) / static_cast<double>(job.runs.size() - 1) * (growth ? job.targets[i] / job.length_mm : 1);
}

void swap_readings(Draws& draws, Job& job) {
    JobRun& run = job.runs[drawn_run(draws, job)];
    for (int attempt = 0; attempt < 10'000; ++attempt) {
        const std::size_t a = drawn_index(draws, 0, job.targets.size()), b = drawn_index(draws, 0, job.targets.size());
        if (std::abs(run.truth[a] - run.truth[b]) < 5 * sigma) continue;
        return std::swap(run.readings[a], run.readings[b]);
    }
}

void slip_one_reading(Draws& draws, Job& job) {
    const double factor = draws.rectangular(-1, 1) < 0 ? 0.1 : 10;
    for (int attempt = 0; attempt < 10'000; ++attempt) {
        JobRun& run = job.runs[drawn_run(draws, job)];
        const std::size_t i = drawn_index(draws, 0, job.targets.size());
        if (std::abs(run.truth[i]) < 2) continue;
        run.readings[i] *= factor;
        return;
    }
}

void scale_run(Job& job, std::size_t run, double factor) {
    for (double& reading : job.runs[run].readings) reading *= factor;
    if (factor < 1) job.resolution_um *= factor;
}

void stick(Draws& draws, Job& job) {
    JobRun& run = job.runs[drawn_run(draws, job)];
    const auto way = way_of(run);
    for (std::size_t i = drawn_index(draws, 0, way.size() / 2) + 1; i < way.size(); ++i) run.readings[way[i]] = run.readings[way[i - 1]];
}

void copy_run(Draws& draws, Job& job) {
    const std::size_t run = drawn_index(draws, 2, job.runs.size());
    job.runs[run].readings = job.runs[run - 2].readings;
}

void fix_target(Draws& draws, Job& job) {
    const std::size_t target = drawn_index(draws, 0, job.targets.size());
    const double value = job.runs[drawn_run(draws, job)].readings[target];
    for (JobRun& run : job.runs) run.readings[target] = value;
}

void add_wave(Draws& draws, Job& job) {
    const double period = job.length_mm / draws.rectangular(3.2, static_cast<double>(job.targets.size()) / 2.2),
                 phase = draws.rectangular(0, 2 * units::pi);
    for (JobRun& run : job.runs)
        for (std::size_t i = 0; i < job.targets.size(); ++i)
            run.readings[i] += 3 * sigma * std::sin(2 * units::pi * job.targets[i] / period + phase);
}

void reverse_run(Draws& draws, Job& job) {
    auto& readings = job.runs[drawn_run(draws, job)].readings;
    std::reverse(readings.begin(), readings.end());
}

/// Two states of one axis: the second corrected, or, as nothing was done to it, like the first.
Document two_states(Draws& draws, bool corrected, const std::function<void(Draws&, Job&)>& fault) {
    Job found = drawn_job(draws, Axis::Sloped), left = found;
    found.id = "x-found";
    found.state = "as-found";
    left.id = "x-left";
    for (JobRun& run : left.runs)
        for (std::size_t i = 0; i < left.targets.size(); ++i)
            run.readings[i] = (corrected ? 0.1 : 1) * run.truth[i] + draws.normal(0, sigma);
    if (fault) fault(draws, left);
    Document document = document_of(found);
    document.series.push_back(series_of(left));
    return document;
}

document::Tolerance limit_on(const std::string& parameter, double um) {
    return {.parameter = parameter,
            .source = "order",
            .limit = units::Deviation(um, units::micrometre),
            .unit = units::micrometre,
            .length_mm = {}};
}

/// Limits of 1.05 to 2 times what the axis has.
void add_limits(Draws& draws, Document& document) {
    for (auto& series : document.series) {
        const auto evaluated = evaluate::evaluate_positioning(document, series);
        for (const char* name : {"A", "E", "R", "B", "M"}) {
            const auto* parameter = evaluate::find_parameter(evaluated, name);
            const double value = std::get<units::Deviation>(parameter->value).in(units::micrometre);
            series.tolerances.push_back(limit_on(name, std::round(100 * value * draws.rectangular(1.05, 2)) / 100 + 0.1));
        }
    }
}

Document with_limits(Draws& draws) {
    Document document = document_of(drawn_job(draws, Axis::Sloped));
    add_limits(draws, document);
    return document;
}

double drawn_power(Draws& draws) { return std::pow(10, drawn_sign(draws) * static_cast<double>(drawn_index(draws, 1, 4))); }

/// Both straightnesses of X with the angles that belong to them: smooth ways of a few µm.
Document both_planes(Draws& draws, bool angles_exchanged, bool straightnesses_exchanged) {
    const Job plan = drawn_job(draws, Axis::Flat);
    Document document;
    document.file = "test.json";
    add_axis(document, "X", 0, plan.length_mm);
    for (const bool lateral : {true, false}) {
        const double a = drawn_sign(draws) * draws.rectangular(2, 8), b = drawn_sign(draws) * draws.rectangular(1, 5),
                     k = units::pi / plan.length_mm;
        Job straight = plan, angle = plan;
        straight.resolution_um = angle.resolution_um = 0.01;
        for (std::size_t r = 0; r < plan.runs.size(); ++r)
            for (std::size_t i = 0; i < plan.targets.size(); ++i) {
                const double x = plan.targets[i];
                straight.runs[r].readings[i] = a * std::sin(k * x) + b * std::sin(2 * k * x) + 0.004 * x + draws.normal(0, sigma);
                // µrad: 1000 times µm/mm; dEYX/dx = ECX, dEZX/dx = -EBX.
                angle.runs[r].readings[i] =
                    (lateral ? 1 : -1) * 1000 * k * (a * std::cos(k * x) + 2 * b * std::cos(2 * k * x)) + draws.normal(0, 0.5);
            }
        const bool y = lateral != straightnesses_exchanged, c = lateral != angles_exchanged;
        straight.id = y ? "x-eyx" : "x-ezx";
        angle.id = c ? "x-ecx" : "x-ebx";
        document.series.push_back(series_of(straight, y ? "EYX" : "EZX"));
        document.series.push_back(series_of(angle, c ? "ECX" : "EBX", units::microradian));
    }
    return document;
}

std::function<Document(Draws&)> clean(Axis axis) {
    return [axis](Draws& draws) { return document_of(drawn_job(draws, axis)); };
}

/// Changes a finished document.
std::function<Document(Draws&)> changed(std::function<void(Draws&, Document&)> fault) {
    return [fault = std::move(fault)](Draws& draws) {
        Document document = document_of(drawn_job(draws, Axis::Sloped));
        fault(draws, document);
        return document;
    };
}

std::vector<PlantedFault> faults_of_readings() {
    return {
        {"outlier of 5 sigma", FindingCode::PossibleOutlier, planted([](Draws& d, Job& job) {
             job.runs[drawn_run(d, job)].readings[drawn_index(d, 0, job.targets.size())] += drawn_sign(d) * 5 * sigma;
         }),
         0.5},  // at a level of 5 % no test names more than 71 to 84 %
        {"outlier of 6.5 sigma", FindingCode::PossibleOutlier, planted([](Draws& d, Job& job) {
             job.runs[drawn_run(d, job)].readings[drawn_index(d, 0, job.targets.size())] += drawn_sign(d) * 6.5 * sigma;
         })},
        {"drift of 3 sigma", FindingCode::DriftOverRuns, planted([](Draws& d, Job& job) { change_over_time(d, job, 3 * sigma, false); })},
        {"thermal growth of 3 sigma", FindingCode::GrowthOverRuns,
         planted([](Draws& d, Job& job) { change_over_time(d, job, 3 * sigma, true); })},
        {"missed count of 1 um in a run", FindingCode::MissedCount, planted([](Draws& d, Job& job) { miss_count(d, job, false); })},
        {"missed count of 1 um that stays", FindingCode::MissedCount, planted([](Draws& d, Job& job) { miss_count(d, job, true); })},
        {"two readings of a run swapped", FindingCode::ReadingsSwapped, planted(swap_readings)},
        {"periodic error of 3 sigma", FindingCode::PeriodicError, planted(add_wave)},
        {"jump between runs of 3 sigma", FindingCode::RunsJump, planted(jump)},
        {"one run apart by 4 sigma", FindingCode::RunApart,
         planted([](Draws& d, Job& job) { add_to_run(job, drawn_run(d, job), drawn_sign(d) * 4 * sigma); })},
        {"sensor stuck", FindingCode::SensorStuck, planted(stick)},
        {"run copied", FindingCode::RunCopied, planted(copy_run)},
        {"one target the same in all runs", FindingCode::TargetAlwaysSame, planted(fix_target)},
        {"decimal slip of one reading", FindingCode::DecimalSlip, planted(slip_one_reading)},
        {"decimal slip of a run", FindingCode::DecimalSlip,
         planted([](Draws& d, Job& job) { scale_run(job, drawn_run(d, job), drawn_sign(d) < 0 ? 0.1 : 10); })},
        {"mm for um in a run", FindingCode::UnitMixedUp, planted([](Draws& d, Job& job) { scale_run(job, drawn_run(d, job), 1e-3); })},
        {"sign of a run turned", FindingCode::SignTurned, planted([](Draws& d, Job& job) { scale_run(job, drawn_run(d, job), -1); })},
        {"run in reverse order", FindingCode::OrderReversed, planted(reverse_run)},
        {"approach of a run swapped", FindingCode::ApproachMixedUp, planted([](Draws& d, Job& job) {
             JobRun& run = job.runs[drawn_run(d, job)];
             run.positive = !run.positive;
         })},
    };
}

/// The second of two states with something done to it; the machine was not corrected between them.
std::function<Document(Draws&)> unchanged(std::function<void(Draws&, Job&)> fault) {
    return [fault = std::move(fault)](Draws& draws) { return two_states(draws, /*corrected=*/false, fault); };
}

std::vector<PlantedFault> faults_of_states() {
    return {
        {"sign turned in one state", FindingCode::SignTurned, unchanged([](Draws&, Job& job) {
             for (std::size_t run = 0; run < job.runs.size(); ++run) scale_run(job, run, -1);
         })},
        {"approaches swapped in one state", FindingCode::ApproachMixedUp, unchanged([](Draws&, Job& job) {
             for (JobRun& run : job.runs) run.positive = !run.positive;
         })},
        {"states over different travel", FindingCode::StatesOverDifferentTravel, unchanged([](Draws&, Job& job) {
             job.targets.pop_back();
             for (JobRun& run : job.runs) run.readings.pop_back();
         })},
        {"states at different targets", FindingCode::StatesOverDifferentTargets, unchanged([](Draws& d, Job& job) {
             job.targets[drawn_index(d, 1, job.targets.size() - 1)] += 1;
         })},
        {"limits differ between states", FindingCode::LimitsDiffer, [](Draws& draws) {
             Document document = two_states(draws, /*corrected=*/true, {});
             for (auto& series : document.series) series.tolerances.push_back(limit_on("A", draws.rectangular(10, 20)));
             return document;
         }},
    };
}

std::vector<PlantedFault> faults_of_documents() {
    return {
        {"limit off by 10, 100 or 1000", FindingCode::ValueOffByFactor, [](Draws& draws) {
             Document document = with_limits(draws);
             auto& limits = document.series[0].tolerances;
             auto& limit = limits[drawn_index(draws, 0, limits.size())];
             limit.limit = limit.limit * drawn_power(draws);
             return document;
         }},
        {"readings off by 10, 100 or 1000", FindingCode::ValueOffByFactor, [](Draws& draws) {
             Document document = with_limits(draws);
             const double factor = drawn_power(draws);
             for (auto& run : document.series[0].runs)
                 for (auto& reading : run.deviations) reading = *reading * factor;
             return document;
         }},
        {"pitch for yaw", FindingCode::PlanesMixedUp, [](Draws& draws) { return both_planes(draws, true, false); }},
        {"straightnesses exchanged", FindingCode::PlanesMixedUp, [](Draws& draws) { return both_planes(draws, false, true); }},
        {"two positions swapped in the list", FindingCode::PositionsSwapped, changed([](Draws& d, Document& document) {
             auto& targets = document.series[0].targets;
             const std::size_t a = drawn_index(d, 0, targets.size() - 1), b = drawn_index(d, a + 1, targets.size());
             std::swap(targets[a], targets[b]);
         })},
        {"targets beyond the travel", FindingCode::TargetsBeyondTravel, changed([](Draws& d, Document& document) {
             auto& travel = *document.machine->axes[0].travel;
             travel.to = units::Position(travel.to.in(units::position_millimetre) * d.rectangular(0.8, 0.99), units::position_millimetre);
         })},
        {"fewer runs than agreed", FindingCode::FewerRunsThanAgreed, changed([](Draws& d, Document& document) {
             document.evaluation.agreed = {"five runs each way over the whole travel"};
             document.series[0].runs.resize(drawn_index(d, 4, 10));
         })},
    };
}

}  // namespace

std::vector<CleanClass> clean_classes() {
    return {{"flat", clean(Axis::Flat)},
            {"sloped", clean(Axis::Sloped)},
            {"periodic error of the machine", clean(Axis::Wavy)},
            {"reversal changes along the axis", clean(Axis::ReversalChanges)},
            {"runs scatter by 0.2 um", clean(Axis::RunsScatter)},
            {"runs scatter by 0.08 um", clean(Axis::RunsScatterLittle)},
            {"readings rounded to 1 um", clean(Axis::Coarse)},
            {"five limits", with_limits},
            {"as found and as left", [](Draws& draws) { return two_states(draws, /*corrected=*/true, {}); }},
            {"both planes with their angles", [](Draws& draws) { return both_planes(draws, false, false); }}};
}

std::vector<PlantedFault> planted_faults() {
    auto all = faults_of_readings();
    for (auto&& part : {faults_of_states(), faults_of_documents()}) all.insert(all.end(), part.begin(), part.end());
    return all;
}

}  // namespace wayfolio::support
