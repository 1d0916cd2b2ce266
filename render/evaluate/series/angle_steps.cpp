#include "evaluate/series/straightness.hpp"

#include "evaluate/series/targets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

namespace {

/// The reading of one step and the two stations it joins.
struct Step {
    document::Target from, to;
    std::size_t to_index;
    TargetEvaluation reading;
};

/// Why the chain of steps has a hole, an overlap or a change of datum.
std::optional<NotEvaluated> fault_in(const std::vector<Step>& steps, double base) {
    for (const Step& step : steps) {
        const double to = step.to.position.in(units::position_millimetre);
        const double length = std::abs(to - step.from.position.in(units::position_millimetre));
        if (std::abs(length - base) > 1e-6 * base + 1e-6)
            return NotEvaluated{
                fmt::format("the step to {} mm is {} mm long, the base {} mm: they must be equal", to, length, base)};
        if (!step.reading.trace_mean()) return NotEvaluated{fmt::format("no reading at {} mm: the chain of steps is broken", to)};
        const auto& first = steps.front().reading.one_way;
        if (std::ranges::any_of(document::both_approaches,
                                [&](Approach approach) { return (step.reading.one_way[approach].n > 0) != (first[approach].n > 0); }))
            return NotEvaluated{fmt::format("not every step was read in the same approaches (see {} mm)", to)};
    }
    return std::nullopt;
}

/// Heights so far, µm: by the mean angles, and by those of each direction that was read.
struct Heights {
    double mean = 0;
    document::ByApproach<std::optional<double>> one_way{};
};

TargetEvaluation station(const document::Target& target, std::size_t index, const Heights& heights) {
    TargetEvaluation made{.index = index, .position = target.position, .written = target.written};
    made.mean = Deviation(heights.mean, units::micrometre);
    for (const Approach approach : document::both_approaches)
        if (const auto& height = heights.one_way[approach]) made.one_way[approach].mean = Deviation(*height, units::micrometre);
    return made;
}

std::vector<TargetEvaluation> summed(std::vector<Step> steps, double base) {
    // A falling order of stations is walked back: the angle is the surface's, and heights grow along rising position.
    const bool falling = steps.front().to.position < steps.front().from.position;
    if (falling) {
        std::reverse(steps.begin(), steps.end());
        for (Step& step : steps) std::swap(step.from, step.to);
    }
    const auto rise = [&](const Deviation& angle) { return angle.in(units::microradian) * base * 1e-3; };
    Heights heights;
    for (const Approach approach : document::both_approaches)
        if (steps.front().reading.one_way[approach].mean) heights.one_way[approach] = 0;
    std::vector<TargetEvaluation> stations{station(steps.front().from, falling ? steps.front().to_index : 0, heights)};
    for (const Step& step : steps) {
        heights.mean += rise(*step.reading.trace_mean());
        for (const Approach approach : document::both_approaches)
            if (auto& height = heights.one_way[approach]) *height += rise(*step.reading.one_way[approach].mean);
        stations.push_back(station(step.to, falling ? step.to_index - 1 : step.to_index, heights));
        for (const Approach approach : document::both_approaches) stations.back().one_way[approach].n = step.reading.one_way[approach].n;
    }
    return stations;
}

}  // namespace

Evaluated<std::vector<TargetEvaluation>> heights_from_angle_steps(const document::Series& series) {
    if (series.unit.dimension != units::Dimension::Angle) return NotEvaluated{"angle steps need readings in a unit of angle"};
    if (series.position_unit.dimension != units::Dimension::Length) return NotEvaluated{"angle steps need a linear axis"};
    if (series.targets.size() < 2) return NotEvaluated{"no readings"};
    const double base = *series.steps_base_mm;
    std::vector<TargetEvaluation> readings = evaluate_targets(series);
    std::sort(readings.begin(), readings.end(), [](const auto& a, const auto& b) { return a.index < b.index; });
    std::vector<Step> steps;
    for (std::size_t i = 1; i < readings.size(); ++i) steps.push_back({series.targets[i - 1], series.targets[i], i, readings[i]});
    if (auto fault = fault_in(steps, base)) return *fault;
    return summed(std::move(steps), base);
}

}  // namespace wayfolio::evaluate
