#pragma once
#include "evaluate/compensation_evaluation.hpp"
#include "evaluate/geometry_evaluation.hpp"
#include "evaluate/review_evaluation.hpp"
#include "evaluate/series_evaluation.hpp"
#include "evaluate/surroundings_evaluation.hpp"
#include "evaluate/uncertainty_evaluation.hpp"

namespace wayfolio::evaluate {

/// Everything that a document's readings say: plain values, each in a type that knows its unit; what could not be had is NotEvaluated
/// with its reason. Lists stand in the document's order, targets in rising position.
struct Evaluation {
    std::vector<SeriesEvaluation> series;
    std::vector<ParameterUncertainty> uncertainty;
    std::vector<Decision> decisions;
    std::vector<SquarenessEvaluation> squareness;
    std::vector<CompensationEvaluation> compensation;
    std::vector<FoundAgainstLeft> found_against_left;
    std::vector<SquarenessFoundAgainstLeft> squareness_found_against_left;
    std::vector<SetupOutcome> setup;
    std::vector<CosineError> cosine;
    EnvironmentEvaluation environment;
    std::vector<KnownBias> known_biases;
    std::vector<SeriesHints> hints;
    std::vector<Lack> lacking;
    std::vector<Warning> warnings;
    std::vector<std::string> defaults_used;  ///< each default that was used, one plain sentence
};

/// The series with this id, or nullptr. The pointers are into `evaluation`.
const SeriesEvaluation* find_series(const Evaluation& evaluation, std::string_view id);
/// The uncertainty of a parameter of a series, or nullptr where the document allows none.
const ParameterUncertainty* find_uncertainty(const Evaluation& evaluation, std::string_view series, std::string_view parameter);
const ParameterUncertainty* find_uncertainty(const Evaluation& evaluation, const SquarenessEvaluation& squareness);

/// Recomputes everything from the document's runs. Never throws for what data cannot support: see NotEvaluated. A function of its
/// argument alone: calls may run beside each other. The clauses, papers and tables that the formulas come from are named where they are
/// computed.
/// @param processors how many it may work on at a time: more than one makes threads of its own for as long as it takes; the result is
/// the same
Evaluation evaluate(const document::Document& document, std::size_t processors = 1);

}  // namespace wayfolio::evaluate
