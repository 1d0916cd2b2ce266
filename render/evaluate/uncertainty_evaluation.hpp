#pragma once
#include "evaluate/series_evaluation.hpp"

#include <array>
#include <cstdint>

/// Uncertainties of results (GUM, JCGM 100:2008), and decisions on limits. A Deviation knows its own unit; `unit` is the one to show it in.
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
    std::optional<document::Influence>
        influence{};  ///< from the closed set of what the program counts by itself; empty: the document's own
};

/// A simulated interval beside value ± U.
struct MonteCarloResult {
    std::size_t trials;
    std::uint64_t seed;
    Deviation expanded;             ///< U of the budget, which is compared
    Deviation standard, low, high;  ///< of the trials, moved back by `shift`
    Deviation shift;                ///< mean less value: noise on measured means counts twice in a maximum
    Deviation tolerance;
    bool agrees;
    enum class Printed { Wider, Narrower };
    std::optional<Printed> printed;       ///< what U is where they do not agree, at the end farther apart
    double covered;                       ///< share of the trials within value ± U
    std::optional<Deviation> resolution;  ///< standard error of an end, where so few trials cannot tell a fifth of the tolerance
};

/// Where the true value lies, counting that scatter only ever makes a range or a maximum larger: value - below to value + U or more.
struct ScatterInterval {
    Deviation bias;       ///< the value is too large by up to so much
    Deviation low, high;  ///< never below 0
    double coverage;
    bool stated;                ///< a report gives it: the bias exceeds U/10, or an end is 10 % farther away than U
    Deviation below;            ///< how far the true value may lie below the measured one
    Deviation below_one_sided;  ///< the same with 95 % on this side alone
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
    std::optional<Evaluated<MonteCarloResult>> monte_carlo;  ///< empty: not asked for
    std::optional<Deviation> known_bias{};  ///< that `expanded` holds beside k u (GUM F.2.4.5 [from memory])
    std::optional<ScatterInterval> interval{};  ///< empty: no range or maximum, or its scatter is not known
    std::vector<std::string> notes{};   ///< what a reader of the budget must know, plain sentences

    /// k u: what is left of `expanded` without a known bias.
    [[nodiscard]] Deviation without_known_bias() const { return known_bias ? expanded - *known_bias : expanded; }
};

/// The uncertainty of a difference of two results.
struct UncertaintyOfChange {
    Deviation standard, expanded;
    double coverage_factor;
    std::optional<double> degrees_of_freedom;  ///< empty: infinite
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
    bool stated = false;  ///< `value` is the document's own: there are no readings to compute it from
    std::optional<Deviation> guard_below{};  ///< how far over its limit a value must be to be outside, where that is more than `guard`
    std::optional<double> probability_of_conformity;
    document::DecisionRule rule;
    bool rule_stated = true;
    Outcome outcome;
    std::string reason;  ///< for NotDecided
};

}  // namespace wayfolio::evaluate
