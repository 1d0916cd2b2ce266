#include "evaluate/series/angles.hpp"

#include "evaluate/series/obstacles.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/series/new_series.hpp"

namespace wayfolio::evaluate {

namespace {

Parameter range_of_means(std::string name, Targets targets, const Obstacle& obstacle, std::initializer_list<Approach> of) {
    if (obstacle) return {.name = std::move(name), .value = *obstacle};
    std::vector<Reach> reaches;
    for (const Approach approach : of) add_band(reaches, targets, approach, 0);
    return range_parameter(std::move(name), targets, reaches);
}

}  // namespace

std::vector<Parameter> angle_parameters(Targets targets) {
    std::vector<Parameter> parameters{
        range_of_means("angle", targets, not_both_directions(targets), {Approach::Positive, Approach::Negative}),
        range_of_means("angle_positive", targets, no_means(targets, Approach::Positive), {Approach::Positive}),
        range_of_means("angle_negative", targets, no_means(targets, Approach::Negative), {Approach::Negative})};
    for (auto& parameter : reversal_parameters(targets)) parameters.push_back(std::move(parameter));
    return parameters;
}

SeriesEvaluation evaluate_angle(const document::Document& document, const document::Series& series) {
    SeriesEvaluation evaluation = new_series(document, series);
    evaluation.parameters = angle_parameters(evaluation.targets);
    const char* reason = evaluation.source == Source::Stated ? "not stated, and no runs to compute it from"
                         : series.runs.empty()               ? "no runs: parameters are of readings at rest, the trace stands apart"
                                                             : nullptr;
    if (reason)
        for (auto& parameter : evaluation.parameters) parameter = {.name = parameter.name, .value = NotEvaluated{reason}};
    return evaluation;
}

}  // namespace wayfolio::evaluate
