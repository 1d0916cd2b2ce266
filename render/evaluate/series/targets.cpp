#include "evaluate/series/targets.hpp"

#include "evaluate/numbers/statistics.hpp"

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

std::vector<double> used_readings(const document::Series& series, Approach approach, std::size_t target,
                                  const DeviationUnit& unit) {
    std::vector<double> readings;
    for (const auto& run : series.runs) {
        if (run.approach != approach) continue;
        if (const auto reading = run.used(target)) readings.push_back(reading->in(unit));
    }
    return readings;
}

TargetEvaluation evaluate_target(const document::Series& series, std::size_t index) {
    // Statistics run on base units (µm, µrad): readings in them are computed as written, free of conversion rounding.
    const auto unit = base_unit(series.unit.dimension);
    TargetEvaluation target{.index = index, .position = series.targets[index].position, .written = series.targets[index].written};
    for (const Approach approach : document::both_approaches) {
        const auto readings = used_readings(series, approach, index, unit);
        OneWay& one_way = target.one_way[approach];
        one_way.n = readings.size();
        if (!readings.empty()) one_way.mean = Deviation(mean(readings), unit);
        if (readings.size() >= 2) one_way.s = Deviation(standard_deviation(readings), unit);
    }
    derive_target(target);
    return target;
}

}  // namespace

DeviationUnit base_unit(units::Dimension dimension) {
    return dimension == units::Dimension::Length ? DeviationUnit(units::micrometre) : DeviationUnit(units::microradian);
}

double in_base_unit(const Deviation& value) { return value.in(base_unit(value.dimension())); }

const PositionUnit& natural_unit(units::Dimension dimension) {
    return dimension == units::Dimension::Length ? units::position_millimetre : units::position_degree;
}

void derive_target(TargetEvaluation& target) {
    auto& [up, down] = target.one_way;
    if (up.mean && down.mean) {
        target.mean = (*up.mean + *down.mean) / 2.0;
        target.reversal = *up.mean - *down.mean;
    }
    // R_i = 4 s_i one way; both ways max[2 s+ + 2 s- + |B_i|; R_i+; R_i-]: ISO 230-2 clause 3 [from memory].
    for (OneWay* one : {&up, &down})
        if (one->s) one->R = 4.0 * *one->s;
    if (target.reversal && up.R && down.R) {
        const auto both = 2.0 * *up.s + 2.0 * *down.s + units::abs(*target.reversal);
        target.R = std::max({both, *up.R, *down.R});
    }
}

std::vector<TargetEvaluation> evaluate_targets(const document::Series& series) {
    std::vector<TargetEvaluation> targets;
    targets.reserve(series.targets.size());
    for (std::size_t index = 0; index < series.targets.size(); ++index) targets.push_back(evaluate_target(series, index));
    std::stable_sort(targets.begin(), targets.end(), [](const auto& a, const auto& b) { return a.position < b.position; });
    return targets;
}

}  // namespace wayfolio::evaluate
