#include "evaluate/uncertainty/contributors.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"

#include <cmath>

namespace wayfolio::evaluate {

namespace {

/// k = 2 covers 95.45 % of a normal distribution, and is compared with an interval of as much.
double coverage_of(const document::Document& document) {
    const auto coverage = document.evaluation.coverage.value_or(document::Coverage::K2);
    return coverage == document::Coverage::K2 ? std::erf(std::sqrt(2.0)) : 0.95;
}

bool of_parameter(const ParameterUncertainty& entry, const std::string& name) {
    return entry.parameter == name && entry.source == Source::Runs;
}

}  // namespace

void add_second_opinion(std::span<ParameterUncertainty> entries, const document::Document& document,
                        const SeriesEvaluation& series) {
    const auto& request = document.evaluation.monte_carlo;
    if (!request || series.kind != SeriesKind::Positioning || entries.empty()) return;
    const AxisModel model = axis_model(contributors_of(document, series));
    for (const SimulatedParameter& simulated :
         simulate_axis(series.targets, model, {"A", "E", "R", "B", "M"}, request->trials, request->seed, coverage_of(document))) {
        const Parameter* parameter = find_parameter(series, simulated.name);
        const Deviation* value = parameter ? value_of(parameter->value) : nullptr;
        for (ParameterUncertainty& entry : entries) {
            if (!value || !of_parameter(entry, simulated.name) || !entry.standard) continue;
            const Deviation standard = entry.standard_at_setting_targets.value_or(*entry.standard);
            const Deviation expanded = entry.expanded_at_setting_targets.value_or(standard * entry.coverage_factor);
            entry.monte_carlo = compare_with_first_order(simulated.values, *value, standard, expanded, *request);
        }
    }
}

}  // namespace wayfolio::evaluate
