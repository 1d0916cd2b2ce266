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
    const auto positive = used_readings(series, Approach::Positive, index, unit);
    const auto negative = used_readings(series, Approach::Negative, index, unit);
    TargetEvaluation target{.index = index, .position = series.targets[index].position, .written = series.targets[index].written};
    target.n_positive = positive.size();
    target.n_negative = negative.size();
    if (!positive.empty()) target.mean_positive = Deviation(mean(positive), unit);
    if (!negative.empty()) target.mean_negative = Deviation(mean(negative), unit);
    if (positive.size() >= 2) target.s_positive = Deviation(standard_deviation(positive), unit);
    if (negative.size() >= 2) target.s_negative = Deviation(standard_deviation(negative), unit);
    derive_target(target);
    return target;
}

}  // namespace

DeviationUnit base_unit(units::Dimension dimension) {
    return dimension == units::Dimension::Length ? DeviationUnit(units::micrometre) : DeviationUnit(units::microradian);
}

void derive_target(TargetEvaluation& target) {
    if (target.mean_positive && target.mean_negative) {
        target.mean = (*target.mean_positive + *target.mean_negative) / 2.0;
        target.reversal = *target.mean_positive - *target.mean_negative;
    }
    // R_i = 4 s_i one way; both ways max[2 s+ + 2 s- + |B_i|; R_i+; R_i-]: ISO 230-2 clause 3 [from memory].
    if (target.s_positive) target.R_positive = 4.0 * *target.s_positive;
    if (target.s_negative) target.R_negative = 4.0 * *target.s_negative;
    if (target.reversal && target.R_positive && target.R_negative) {
        const auto both = 2.0 * *target.s_positive + 2.0 * *target.s_negative + units::abs(*target.reversal);
        target.R = std::max({both, *target.R_positive, *target.R_negative});
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
