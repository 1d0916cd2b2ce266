#include "evaluate/series/positioning.hpp"

#include "evaluate/series/obstacles.hpp"
#include "evaluate/series/new_series.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "evaluate/series/targets.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

namespace wayfolio::evaluate {
namespace {

using document::both_approaches;

std::string one_way(const std::string& name, Approach approach) {
    return name + "_" + std::string(word(approach));
}

Parameter range_or(std::string name, Targets targets, const Obstacle& obstacle, const std::vector<Reach>& reaches) {
    if (obstacle) return {.name = std::move(name), .value = *obstacle};
    return range_parameter(std::move(name), targets, reaches);
}

std::vector<Reach> bands(Targets targets, std::initializer_list<Approach> of, double k) {
    std::vector<Reach> reaches;
    for (const auto approach : of) add_band(reaches, targets, approach, k);
    return reaches;
}

/// E and E one way: the range of the means, over all that exist.
std::vector<Parameter> mean_range_parameters(Targets targets) {
    std::vector<Parameter> parameters{
        range_or("E", targets, not_both_directions(targets), bands(targets, {Approach::Positive, Approach::Negative}, 0))};
    for (const auto approach : both_approaches)
        parameters.push_back(
            range_or(one_way("E", approach), targets, no_means(targets, approach), bands(targets, {approach}, 0)));
    return parameters;
}

/// M: the range of the bidirectional means.
Parameter mean_bidirectional_parameter(Targets targets) {
    std::vector<Reach> reaches;
    for (std::size_t i = 0; i < targets.size(); ++i)
        if (targets[i].mean) reaches.push_back({i, std::nullopt, *targets[i].mean, *targets[i].mean});
    return range_or("M", targets, no_shared_target(targets), reaches);
}

/// R_i with k in place of 2: max[k s+ + k s- + |B_i|; 2k s+; 2k s-]; where one direction is missing, that of the other.
/// The direction is named where one alone sets it.
std::optional<Peak> repeatability_at(Targets targets, std::size_t i, double k) {
    const auto& target = targets[i];
    std::optional<Peak> largest;
    const auto& [up, down] = target.one_way;
    if (target.reversal && up.s && down.s) {
        const auto both = k * *up.s + k * *down.s + units::abs(*target.reversal);
        largest = Peak{i, std::nullopt, both, both};
    }
    for (const auto approach : both_approaches) {
        const auto& s = target.one_way[approach].s;
        if (!s) continue;
        const auto one = 2 * k * *s;
        if (!largest || one > largest->size) largest = Peak{i, approach, one, one};
    }
    return largest;
}

Parameter repeatability_one_way(std::string name, double k, Targets targets, Approach approach, const PositionUnit& unit) {
    if (const auto obstacle = no_spread(targets, approach, unit)) return {.name = std::move(name), .value = *obstacle};
    std::vector<Peak> peaks;
    for (std::size_t i = 0; i < targets.size(); ++i)
        if (const auto& s = targets[i].one_way[approach].s) peaks.push_back({i, approach, 2 * k * *s, 2 * k * *s});
    return maximum_parameter(std::move(name), targets, peaks);
}

Parameter repeatability_both(std::string name, double k, Targets targets, const PositionUnit& unit) {
    if (const auto obstacle = no_spread_both(targets, unit)) return {.name = std::move(name), .value = *obstacle};
    std::vector<Peak> peaks;
    for (std::size_t i = 0; i < targets.size(); ++i)
        if (const auto peak = repeatability_at(targets, i, k)) peaks.push_back(*peak);
    return maximum_parameter(std::move(name), targets, peaks);
}

void append(std::vector<Parameter>& to, std::vector<Parameter> more) {
    to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

std::vector<Parameter> band_parameters(const std::string& prefix, double k, Targets targets, const PositionUnit& unit) {
    const std::string name = prefix + "A";
    std::vector<Parameter> parameters{
        range_or(name, targets, no_spread_both(targets, unit), bands(targets, {Approach::Positive, Approach::Negative}, k))};
    for (const auto approach : both_approaches)
        parameters.push_back(
            range_or(one_way(name, approach), targets, no_spread(targets, approach, unit), bands(targets, {approach}, k)));
    return parameters;
}

std::vector<Parameter> repeatability_parameters(const std::string& prefix, double k, Targets targets, const PositionUnit& unit) {
    const std::string name = prefix + "R";
    return {repeatability_both(name, k, targets, unit),
            repeatability_one_way(one_way(name, Approach::Positive), k, targets, Approach::Positive, unit),
            repeatability_one_way(one_way(name, Approach::Negative), k, targets, Approach::Negative, unit)};
}

std::vector<Parameter> reversal_parameters(Targets targets) {
    if (const auto obstacle = no_shared_target(targets))
        return {{.name = "B", .value = *obstacle}, {.name = "B_mean", .value = *obstacle}};
    std::vector<Peak> peaks;
    std::vector<double> reversals;
    std::optional<DeviationUnit> unit;
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const auto& reversal = targets[i].reversal;
        if (!reversal) continue;
        unit = base_unit(reversal->dimension());
        peaks.push_back({i, std::nullopt, units::abs(*reversal), *reversal});
        reversals.push_back(reversal->in(*unit));
    }
    return {maximum_parameter("B", targets, peaks), {.name = "B_mean", .value = Deviation(mean(reversals), *unit)}};
}

std::vector<Parameter> positioning_parameters(Targets targets, const PositionUnit& unit) {
    auto parameters = band_parameters("", 2, targets, unit);
    append(parameters, mean_range_parameters(targets));
    append(parameters, repeatability_parameters("", 2, targets, unit));
    append(parameters, reversal_parameters(targets));
    parameters.push_back(mean_bidirectional_parameter(targets));
    return parameters;
}

namespace {

std::vector<Parameter> all_parameters(const document::Document& document, const SeriesEvaluation& series) {
    auto parameters = positioning_parameters(series.targets, series.position_unit);
    for (const auto edition : document.evaluation.also)
        append(parameters, older_parameters(edition, series.targets, series.position_unit));
    return parameters;
}

/// The same at every target for all its readings: means move, standard deviations and reversals stay.
void take_off(const Evaluated<AirTakenOff>& air, const document::Document& document, SeriesEvaluation& series) {
    series.air_correction = air;
    if (!value_of(air)) return;
    for (TargetEvaluation& target : series.targets) {
        for (const auto approach : both_approaches)
            if (auto& mean = target.one_way[approach].mean) mean = *mean + series.air_at(target.position);
        derive_target(target);
    }
    const std::vector<Parameter> raw = std::exchange(series.parameters, all_parameters(document, series));
    for (std::size_t i = 0; i < raw.size(); ++i)
        if (const Deviation* value = value_of(raw[i].value)) series.parameters[i].raw = *value;
}

}  // namespace

SeriesEvaluation evaluate_positioning(const document::Document& document, const document::Series& series,
                                      const std::optional<Evaluated<AirTakenOff>>& air) {
    auto evaluation = new_series(document, series);
    evaluation.parameters = all_parameters(document, evaluation);
    if (evaluation.source == Source::Stated)
        for (auto& parameter : evaluation.parameters)
            parameter = {.name = parameter.name, .value = NotEvaluated{"not stated, and no runs to compute it from"}};
    else if (series.runs.empty())
        for (auto& parameter : evaluation.parameters)
            parameter.value = NotEvaluated{"no runs: parameters are of readings at rest, the trace stands apart"};
    else if (air)
        take_off(*air, document, evaluation);
    return evaluation;
}

}  // namespace wayfolio::evaluate
