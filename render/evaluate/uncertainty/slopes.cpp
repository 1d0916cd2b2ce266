#include "evaluate/series/geometry/geometry.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"
#include "evaluate/uncertainty/combination_table.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::evaluate {

namespace {

/// The slope of one axis as a contributor, in µrad; nothing where its series has no budget.
std::optional<Component> slope_component(const document::Document& document, const std::vector<SeriesEvaluation>& all,
                                  const std::string& id) {
    const SeriesEvaluation* series = find_series(all, id);
    if (!series) return std::nullopt;
    const Parameter* slope = find_parameter(*series, "slope");
    const SeriesContributors contributors = contributors_of(document, *series);
    if (!slope || !value_of(slope->value) || !contributors.enough()) return std::nullopt;
    const auto budget = budget_of(*series, *slope, contributors, measured_travel_m(*series));
    if (!budget) return std::nullopt;
    const Combined combined = combine(*budget);
    Component component;
    component.name = fmt::format("slope of {}", series->error.text());
    component.basis = "budget of the slope";
    component.distribution = "normal";
    component.standard = combined.standard;
    component.degrees_of_freedom = combined.degrees_of_freedom;
    component.influence = document::Influence::Slope;
    return component;
}

std::optional<Component> square_of(const document::SquarenessRequest& request) {
    if (!request.square_expanded_urad) return std::nullopt;
    Component square;
    square.name = "square";
    square.basis =
        request.square_serial.empty() ? "certificate of the square" : "certificate of the square " + request.square_serial;
    square.distribution = "normal";
    square.influence = document::Influence::Square;
    square.standard = *request.square_expanded_urad / request.square_coverage_factor.value_or(2);
    return square;
}

}  // namespace

void add_squareness_uncertainty(std::vector<ParameterUncertainty>& entries, const document::Document& document,
                                const std::vector<SeriesEvaluation>& series) {
    for (const SquarenessEvaluation& squareness : evaluate_squareness(document, series)) {
        const auto request = std::find_if(document.squareness.begin(), document.squareness.end(), [&](const auto& asked) {
            return asked.axes == squareness.axes && asked.series == squareness.series;
        });
        const auto first = slope_component(document, series, squareness.series[0]),
                   second = slope_component(document, series, squareness.series[1]);
        if (!value_of(squareness.value) || !first || !second) continue;
        Component budget;
        budget.parts = {*first, *second};
        if (const auto square = square_of(*request)) budget.parts.push_back(*square);
        ParameterUncertainty entry = computed(document, budget, units::microradian);
        entry.series = squareness.series[0];
        entry.parameter = "squareness";
        entry.axes = squareness.axes;
        if (!request->square_expanded_urad)
            entry.notes.emplace_back("The document states no uncertainty of the square: it is not in the budget.");
        if (document.evaluation.monte_carlo) entry.monte_carlo = NotEvaluated{"only parameters of positioning series are simulated"};
        entries.push_back(std::move(entry));
    }
}

}  // namespace wayfolio::evaluate
