#include "evaluate/uncertainty/change_uncertainty.hpp"

#include "evaluate/series/targets.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"

namespace wayfolio::evaluate {
namespace {

/// A stated U has no degrees of freedom of its own: they count as infinite.
Component part_of(const ParameterUncertainty& entry) {
    const Deviation standard = entry.standard.value_or(entry.expanded / entry.coverage_factor);
    return {.standard = in_base_unit(standard), .degrees_of_freedom = entry.degrees_of_freedom};
}

UncertaintyOfChange expanded_of(const document::Document& document, std::vector<Component> parts, const DeviationUnit& unit) {
    const ParameterUncertainty entry = computed(document, Component{.parts = std::move(parts)}, unit);
    return {.standard = *entry.standard,
            .expanded = entry.expanded,
            .coverage_factor = entry.coverage_factor,
            .degrees_of_freedom = entry.degrees_of_freedom};
}

void add_to(FoundAgainstLeftParameter& parameter, const document::Document& document, const ParameterUncertainty* found,
            const ParameterUncertainty* left) {
    if (found && left) parameter.uncertainty = uncertainty_of_change(document, *found, *left);
}

}  // namespace

UncertaintyOfChange uncertainty_of_change(const document::Document& document, const ParameterUncertainty& from,
                                          const ParameterUncertainty& to) {
    return expanded_of(document, {part_of(from), part_of(to)}, to.unit);
}

UncertaintyOfChange uncertainty_of_shared(const document::Document& document, const ParameterUncertainty& from,
                                          const ParameterUncertainty& to) {
    const Component a = part_of(from), b = part_of(to);
    return expanded_of(document, {a.standard > b.standard ? a : b}, to.unit);
}

void add_change_uncertainty(const document::Document& document, Evaluation& evaluation) {
    for (FoundAgainstLeft& pair : evaluation.found_against_left)
        for (FoundAgainstLeftParameter& parameter : pair.parameters)
            add_to(parameter, document, find_uncertainty(evaluation, pair.found, parameter.name),
                   find_uncertainty(evaluation, pair.left, parameter.name));
    for (SquarenessFoundAgainstLeft& pair : evaluation.squareness_found_against_left)
        add_to(pair.parameter, document, find_uncertainty(evaluation, evaluation.squareness[pair.found]),
               find_uncertainty(evaluation, evaluation.squareness[pair.left]));
}

}  // namespace wayfolio::evaluate
