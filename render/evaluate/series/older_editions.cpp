#include "evaluate/series/positioning.hpp"

#include "evaluate/series/obstacles.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "evaluate/series/targets.hpp"

#include <iterator>

namespace wayfolio::evaluate {
namespace {

std::vector<Parameter> not_evaluated(std::initializer_list<const char*> names, const NotEvaluated& reason) {
    std::vector<Parameter> parameters;
    for (const auto* name : names) parameters.push_back({.name = name, .value = reason});
    return parameters;
}

Parameter mean_parameter(std::string name, const std::vector<Peak>& peaks) {
    const auto unit = base_unit(peaks.front().size.dimension());
    std::vector<double> sizes;
    for (const auto& peak : peaks) sizes.push_back(peak.size.in(unit));
    return {.name = std::move(name), .value = Deviation(mean(sizes), unit)};
}

/// U_j = |B_j|, U its largest and U_mean its mean; Pa the range of the bidirectional means.
std::vector<Parameter> vdi_from_means(Targets targets) {
    if (const auto obstacle = no_shared_target(targets)) return not_evaluated({"vdi_Pa", "vdi_U", "vdi_U_mean"}, *obstacle);
    std::vector<Reach> means;
    std::vector<Peak> reversals;
    for (std::size_t i = 0; i < targets.size(); ++i) {
        if (!targets[i].mean) continue;
        means.push_back({i, std::nullopt, *targets[i].mean, *targets[i].mean});
        reversals.push_back({i, std::nullopt, units::abs(*targets[i].reversal), *targets[i].reversal});
    }
    return {range_parameter("vdi_Pa", targets, means), maximum_parameter("vdi_U", targets, reversals),
            mean_parameter("vdi_U_mean", reversals)};
}

/// Ps_j = 6 s_j with s_j = (s+ + s-)/2; P the range of mean -+ (U_j + Ps_j)/2.
std::vector<Parameter> vdi_from_spread(Targets targets, const PositionUnit& unit) {
    auto obstacle = no_shared_target(targets);
    if (!obstacle) obstacle = no_spread_both(targets, unit);
    if (obstacle) return not_evaluated({"vdi_P", "vdi_Ps", "vdi_Ps_mean"}, *obstacle);
    std::vector<Reach> bands;
    std::vector<Peak> scatter;
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const auto& target = targets[i];
        if (!target.mean) continue;
        const auto Ps = 6.0 * ((*target.one_way.positive.s + *target.one_way.negative.s) / 2.0);
        const auto half = (units::abs(*target.reversal) + Ps) / 2.0;
        bands.push_back({i, std::nullopt, *target.mean - half, *target.mean + half});
        scatter.push_back({i, std::nullopt, Ps, Ps});
    }
    return {range_parameter("vdi_P", targets, bands), maximum_parameter("vdi_Ps", targets, scatter),
            mean_parameter("vdi_Ps_mean", scatter)};
}

/// In the order vdi_P vdi_Pa vdi_Ps vdi_Ps_mean vdi_U vdi_U_mean.
std::vector<Parameter> vdi_parameters(Targets targets, const PositionUnit& unit) {
    auto spread = vdi_from_spread(targets, unit);
    auto means = vdi_from_means(targets);
    return {spread[0], means[0], spread[1], spread[2], means[1], means[2]};
}

}  // namespace

std::vector<Parameter> older_parameters(document::OlderStandard edition, Targets targets, const PositionUnit& unit) {
    if (edition == document::OlderStandard::VdiDgq3441_1977) return vdi_parameters(targets, unit);
    auto parameters = band_parameters("s3_", 3, targets, unit);
    auto repeatability = repeatability_parameters("s3_", 3, targets, unit);
    std::move(repeatability.begin(), repeatability.end(), std::back_inserter(parameters));
    return parameters;
}

}  // namespace wayfolio::evaluate
