#include "evaluate/series/targets.hpp"
#include "evaluate/uncertainty/combination_table.hpp"
#include "evaluate/uncertainty/scatter/scatter_bias.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

namespace {

// 95 % between both ends, and on one side alone.
constexpr double two_sided = 1.959964, one_sided = 1.644854;

/// Distances from the value, in the base unit.
struct Reaches {
    double below, above, below_one_sided;
};

Reaches beside_stated(double expanded, double factor, const ScatterBias& bias) {
    return {expanded + bias.up_to(), expanded, one_sided * expanded / factor + bias.up_to()};
}

Reaches by_laws(double expanded, double factor, const ScatterBias& bias, double systematic) {
    return {std::max(expanded, below(bias, systematic, two_sided)), std::max(expanded, above(bias, systematic, two_sided)),
            std::max(one_sided * expanded / factor, below(bias, systematic, one_sided))};
}

/// Everything in the budget but scatter and drift.
double systematic_standard(const SeriesEvaluation& series, const Parameter& parameter, const SeriesContributors& contributors) {
    if (!depends_on_length(parameter.name)) return 0;
    Component all;
    all.parts = systematic_parts(contributors, measured_travel_m(series));
    return combine(all).standard;
}

}  // namespace

void add_interval(ParameterUncertainty& entry, const SeriesEvaluation& series, const SeriesContributors& contributors) {
    const Parameter* parameter = entry.length_mm ? nullptr : find_parameter(series, entry.parameter);
    if (!parameter || !parameter->scatter_bias) return;
    const ScatterBias* bias = value_of(*parameter->scatter_bias);
    const Deviation* value = value_of(parameter->value);
    if (!bias || !value || value->dimension() != entry.expanded.dimension()) return;
    const DeviationUnit unit = base_unit(value->dimension());
    const double U = entry.expanded.in(unit), k = entry.coverage_factor, measured = value->in(unit);
    const Reaches reaches = entry.source == Source::Stated
                                ? beside_stated(U, k, *bias)
                                : by_laws(U, k, *bias, systematic_standard(series, *parameter, contributors));
    constexpr double noticeable = 1.1;
    entry.interval = ScatterInterval{
        .bias = Deviation(bias->up_to(), unit),
        .low = Deviation(std::max(0.0, measured - reaches.below), unit),
        .high = Deviation(measured + reaches.above, unit),
        .coverage = 0.95,
        .stated = bias->up_to() > U / 10 || reaches.below > noticeable * U || reaches.above > noticeable * U,
        .below = Deviation(reaches.below, unit),
        .below_one_sided = Deviation(reaches.below_one_sided, unit)};
}

}  // namespace wayfolio::evaluate
