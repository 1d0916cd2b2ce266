#include "evaluate/series/stated.hpp"

#include "evaluate/series/targets.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// The target as the series lists it; where it lists none, the place among the stated ones.
TargetEvaluation target_at(const document::Series& series, const document::StatedTarget& stated, std::size_t place) {
    const auto found = std::find_if(series.targets.begin(), series.targets.end(),
                                    [&](const auto& target) { return target.position == stated.position; });
    if (found == series.targets.end())
        return {.index = place, .position = stated.position, .written = stated.position.in(series.position_unit)};
    return {.index = static_cast<std::size_t>(found - series.targets.begin()),
            .position = found->position,
            .written = found->written};
}

/// Off by at most half a unit of the last written digit agrees; the half unit itself is held to within the rounding of doubles.
bool agrees(const document::StatedValue& stated, Deviation recomputed) {
    const auto rounding = (units::abs(stated.value) + units::abs(recomputed)) * 1e-12;
    return units::abs(recomputed - stated.value) <= stated.half_last_digit + rounding;
}

/// One more decimal for ours than the stated value has, so that the difference shows.
std::string disagreement(const document::StatedValue& stated, Deviation recomputed, const DeviationUnit& series_unit) {
    const auto unit = stated.value.dimension() == series_unit.dimension ? series_unit : base_unit(stated.value.dimension());
    const int decimals = static_cast<int>(std::lround(-std::log10(2 * stated.half_last_digit.in(unit))));
    return fmt::format("stated {} {unit}, recomputed {} {unit}", units::number(stated.value.in(unit), decimals),
                       units::number(recomputed.in(unit), decimals + 1), fmt::arg("unit", unit.symbol));
}

}  // namespace

std::vector<TargetEvaluation> stated_targets(const document::Series& series) {
    std::vector<TargetEvaluation> targets;
    for (const auto& stated : series.stated_targets) {
        auto target = target_at(series, stated, targets.size());
        for (const Approach approach : document::both_approaches)
            target.one_way[approach] = {.mean = stated.mean[approach], .s = stated.s[approach]};
        derive_target(target);
        targets.push_back(target);
    }
    std::stable_sort(targets.begin(), targets.end(), [](const auto& a, const auto& b) { return a.position < b.position; });
    return targets;
}

void attach_stated(SeriesEvaluation& evaluation, const document::Series& series) {
    const NotEvaluated not_recomputed{"stated, not recomputed"};
    auto& parameters = evaluation.parameters;
    for (const auto& stated : series.stated) {
        const auto known = std::find_if(parameters.begin(), parameters.end(),
                                        [&](const auto& parameter) { return parameter.name == stated.parameter; });
        if (known == parameters.end()) {
            parameters.push_back({.name = stated.parameter, .value = not_recomputed, .stated = stated.value});
            continue;
        }
        known->stated = stated.value;
        if (evaluation.source == Source::Stated) known->value = not_recomputed;
    }
}

std::vector<Warning> stated_disagreements(const SeriesEvaluation& evaluation, const document::Series& series, std::size_t place) {
    std::vector<Warning> warnings;
    for (const auto& stated : series.stated) {
        const auto* parameter = find_parameter(evaluation, stated.parameter);
        const auto* recomputed = parameter == nullptr ? nullptr : value_of(parameter->value);
        if (recomputed == nullptr || recomputed->dimension() != stated.value.dimension() || agrees(stated, *recomputed)) continue;
        warnings.push_back(
            {FindingCode::StatedValueDiffers, fmt::format("/series/{}/stated/{}", place, stated.parameter),
             disagreement(stated, *recomputed, evaluation.unit)});
    }
    return warnings;
}

}  // namespace wayfolio::evaluate
