#pragma once
#include "evaluate/series/geometry/found_against_left.hpp"
#include "evaluate/compensation/compensation.hpp"
#include "evaluate/surroundings/cosine.hpp"
#include "evaluate/surroundings/environment.hpp"
#include "evaluate/review/hints.hpp"
#include "evaluate/series_evaluation.hpp"
#include "evaluate/surroundings/setup_checks.hpp"
#include "evaluate/series/geometry/squareness.hpp"

namespace wayfolio::evaluate {

/// One line of an uncertainty budget.
struct BudgetLine {
    std::string name, basis, distribution;
    Deviation standard;  ///< contribution to the parameter: sensitivity times standard uncertainty
    double sensitivity = 1;
    std::optional<double> degrees_of_freedom;  ///< empty: infinite
    double share = 0;                          ///< of the variance, 0..1; of a sum in proportion to the contributions
    bool per_metre = false;                    ///< the input is for one metre: the length is in `sensitivity`
    std::string correlated{};                  ///< what the document calls the contributors that were added before squaring; empty: none
};

struct MonteCarloResult {
    std::size_t trials;
    std::uint64_t seed;
    Deviation standard, low, high, bias, tolerance;
    bool agrees;
};

struct ParameterUncertainty {
    std::string series, parameter;                   ///< for parameter "squareness": the first of its two series
    std::optional<std::array<std::string, 2>> axes;  ///< for parameter "squareness"
    std::optional<double> length_mm;                 ///< for parameter "local"
    Source source;  ///< Stated: from the document; Runs: computed here
    DeviationUnit unit;
    Deviation expanded;
    std::optional<Deviation> standard;
    double coverage_factor = 2, coverage = 0.95;  ///< what the factor covers; of a stated U, what is usually meant
    std::optional<double> degrees_of_freedom;
    std::vector<BudgetLine> contributors;
    std::optional<Deviation> standard_at_setting_targets, expanded_at_setting_targets;
    bool raised_to_capability = false;  ///< the laboratory's stated capability was larger and is printed
    std::optional<MonteCarloResult> monte_carlo;
    std::vector<std::string> notes{};   ///< what a reader of the budget must know, plain sentences
};

enum class Outcome { Pass, Fail, ConditionalPass, ConditionalFail, Undecided, NotDecided };

/// A decision on one tolerance by a named rule (ILAC-G8:09/2019, ISO 14253-1, JCGM 106:2012).
struct Decision {
    std::string series, parameter;                         ///< for parameter "squareness": the first of its two series
    std::optional<std::array<std::string, 2>> axes;        ///< for parameter "squareness"
    std::optional<double> length_mm;                       ///< for parameter "local"
    std::optional<document::ReferenceLine> reference_line;  ///< the line that `value` is taken about, where one is
    std::string source;               ///< of the limit
    Deviation limit;
    DeviationUnit unit;  ///< of the limit, as written
    std::optional<Deviation> value, expanded, guard, acceptance_limit, margin, margin_after_U;
    std::optional<double> probability_of_conformity;
    document::DecisionRule rule;
    bool rule_stated = true;
    Outcome outcome;
    std::string reason;  ///< for NotDecided
};

/// What the document still lacks, and for which purpose.
struct Lack {
    std::string purpose, what, pointer;  ///< purpose e.g. "ISO/IEC 17025 7.8.2.1 j"
};

struct Warning {
    std::string pointer, text;
};

struct Evaluation {
    std::vector<SeriesEvaluation> series;
    std::vector<ParameterUncertainty> uncertainty;
    std::vector<Decision> decisions;
    std::vector<SquarenessEvaluation> squareness;
    std::vector<CompensationEvaluation> compensation;
    std::vector<Comparison> compare;
    std::vector<SetupOutcome> setup;
    std::vector<CosineError> cosine;
    EnvironmentEvaluation environment;
    std::vector<SeriesHints> hints;
    std::vector<Lack> lacking;
    std::vector<Warning> warnings;
    std::vector<std::string> defaults_used;  ///< each default that was used, one plain sentence
};

const SeriesEvaluation* find_series(const Evaluation& evaluation, std::string_view id);
const ParameterUncertainty* find_uncertainty(const Evaluation& evaluation, std::string_view series, std::string_view parameter);

/// Recomputes everything from the document's runs. Never throws for what data cannot support: see NotEvaluated.
Evaluation evaluate(const document::Document& document);

}  // namespace wayfolio::evaluate
