#include "evaluate/uncertainty/combination_table.hpp"
#include "evaluate/uncertainty/contributors.hpp"
#include "evaluate/uncertainty/monte_carlo_axis.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

namespace {

/// k = 2 covers 95.45 % of a normal distribution, and is compared with an interval of as much.
double coverage_of(const document::Document& document) {
    const auto coverage = document.evaluation.coverage.value_or(document::Coverage::K2);
    return coverage == document::Coverage::K2 ? std::erf(std::sqrt(2.0)) : 0.95;
}

/// Why an entry has no simulation whatever the readings are.
std::optional<NotEvaluated> never_simulated(const ParameterUncertainty& entry, const SeriesEvaluation& series) {
    if (entry.source == Source::Stated) return NotEvaluated{"stated by the document: what the uncertainty is made of is not known"};
    if (series.kind != SeriesKind::Positioning) return NotEvaluated{"only parameters of positioning series are simulated"};
    const auto& names = simulated_parameters;
    if (std::find(names.begin(), names.end(), entry.parameter) == names.end())
        return NotEvaluated{"only A, E, R, B and M are simulated"};
    return std::nullopt;
}

/// The degrees of freedom of limits would make them limits of limits (JCGM 101 6.4.3): they are not propagated, and that is said.
void note_exact_limits(ParameterUncertainty& entry) {
    for (const BudgetLine& line : entry.contributors)
        if (line.degrees_of_freedom && line.distribution != "normal" && line.influence != document::Influence::Drift)
            entry.notes.push_back(
                fmt::format("The Monte Carlo propagation takes the limits of {} as exact, without degrees of freedom.", line.name));
}

std::size_t place_of(const std::string& parameter) {
    return static_cast<std::size_t>(std::ranges::find(simulated_parameters, parameter) - simulated_parameters.begin());
}

void compare(std::span<ParameterUncertainty* const> entries, const SeriesEvaluation& series, const RepeatedTrials& trials,
             const document::MonteCarloRequest& request, double coverage) {
    const auto value_of_entry = [&](const ParameterUncertainty& entry) {
        return std::get<Deviation>(find_parameter(series, entry.parameter)->value);
    };
    std::vector<Band> bands(trials.numbers());
    for (const auto* entry : entries) bands[place_of(entry->parameter)] = band_of(value_of_entry(*entry), entry->expanded);
    const std::vector<Simulated> simulated = summaries(trials, coverage, bands);
    for (ParameterUncertainty* entry : entries) {
        entry->monte_carlo = compare_with_first_order(simulated[place_of(entry->parameter)], value_of_entry(*entry), *entry->standard,
                                                      entry->expanded, request);
        note_exact_limits(*entry);
    }
}

}  // namespace

void add_second_opinion(std::span<ParameterUncertainty> entries, const document::Document& document, const SeriesEvaluation& series,
                        const SeriesContributors& contributors) {
    const auto& request = document.evaluation.monte_carlo;
    if (!request) return;
    std::vector<ParameterUncertainty*> open;
    for (ParameterUncertainty& entry : entries) {
        if (const auto why = never_simulated(entry, series))
            entry.monte_carlo = *why;
        else
            open.push_back(&entry);
    }
    if (open.empty()) return;
    const AxisModel model{systematic_parts(contributors, measured_travel_m(series)),
                          contributors.drift ? contributors.drift->standard : 0};
    const auto simulated = simulate_axis(series.targets, model, request->trials, request->seed);
    if (const auto* trials = value_of(simulated)) return compare(open, series, *trials, *request, coverage_of(document));
    for (ParameterUncertainty* entry : open) entry->monte_carlo = std::get<NotEvaluated>(simulated);
}

}  // namespace wayfolio::evaluate
