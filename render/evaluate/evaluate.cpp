#include "evaluate/evaluation.hpp"

#include "evaluate/compensation/compensation.hpp"
#include "evaluate/review/site/before_leaving.hpp"
#include "evaluate/review/cautions.hpp"
#include "evaluate/review/conditions/conditions.hpp"
#include "evaluate/review/hints.hpp"
#include "evaluate/review/lacking.hpp"
#include "evaluate/series/angles.hpp"
#include "evaluate/series/geometry/geometry.hpp"
#include "evaluate/series/new_series.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/series/stated.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/surroundings/surroundings.hpp"
#include "evaluate/trace/trace.hpp"
#include "evaluate/uncertainty/change_uncertainty.hpp"
#include "evaluate/uncertainty/conformity.hpp"
#include "evaluate/uncertainty/known_bias.hpp"
#include "evaluate/uncertainty/scatter/scatter_bias.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"
#include "input/share_out.hpp"

namespace wayfolio::evaluate {
namespace {

SeriesEvaluation with_conditions(SeriesEvaluation evaluated, const document::Document& document, const document::Series& series) {
    evaluated.conditions = test_conditions(document, series, evaluated.targets);
    return evaluated;
}

SeriesEvaluation evaluate_by_kind(const document::Document& document, const document::Series& series) {
    switch (kind_of(series)) {
        case SeriesKind::Positioning:
            return with_conditions(evaluate_positioning(document, series, air_to_take_off(document, series)), document, series);
        case SeriesKind::Straightness:
        case SeriesKind::AngleSteps:
            return evaluate_straightness(document, series);
        case SeriesKind::Angle:
            return evaluate_angle(document, series);
    }
    return new_series(document, series);
}

/// Each series by itself: none needs another.
std::vector<SeriesEvaluation> evaluate_series(const document::Document& document, std::size_t processors) {
    std::vector<std::optional<SeriesEvaluation>> evaluated(document.series.size());
    input::share_out(evaluated.size(), processors, [&](std::size_t i) {
        evaluated[i] = evaluate_by_kind(document, document.series[i]);
        attach_stated(*evaluated[i], document.series[i]);
        add_scatter_bias(document, {&*evaluated[i], 1});
    });
    std::vector<SeriesEvaluation> all;
    all.reserve(evaluated.size());
    for (auto& one : evaluated) all.push_back(std::move(*one));
    // One after the other: a record of millions of samples takes memory of its own.
    for (std::size_t i = 0; i < all.size(); ++i)
        if (document.series[i].trace) all[i].trace = evaluate_trace(document, document.series[i], all[i]);
    return all;
}

}  // namespace

Evaluation evaluate(const document::Document& document, std::size_t processors) {
    Evaluation evaluation;
    evaluation.series = evaluate_series(document, processors);
    add_tool_points(document, evaluation.series);
    evaluation.squareness = evaluate_squareness(document, evaluation.series);
    evaluation.compensation = evaluate_compensation(document, evaluation.series);
    evaluation.found_against_left = found_against_left(document, evaluation.series);
    evaluation.squareness_found_against_left = found_against_left(evaluation.squareness, evaluation.series);
    evaluation.uncertainty = evaluate_uncertainty(document, evaluation.series);
    add_change_uncertainty(document, evaluation);
    evaluation.setup = evaluate_setup(document);
    evaluation.cosine = evaluate_cosine(document);
    evaluation.environment = evaluate_environment(document);
    count_known_biases(evaluation, document);
    evaluation.hints = evaluate_hints(document, evaluation.series, processors);
    evaluation.decisions = decide(document, evaluation);
    evaluation.lacking = lacking_in(document);
    evaluation.warnings = cautions(document, evaluation.series);
    for (auto& warning : cosine_warnings(document, evaluation)) evaluation.warnings.push_back(std::move(warning));
    for (auto& warning : bias_warnings(document, evaluation)) evaluation.warnings.push_back(std::move(warning));
    evaluation.defaults_used = defaults_used(document, evaluation.uncertainty.empty() ? HasUncertainty::No : HasUncertainty::Yes);
    return evaluation;
}

}  // namespace wayfolio::evaluate
