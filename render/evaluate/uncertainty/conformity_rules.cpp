#include "evaluate/uncertainty/conformity.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

using document::DecisionRule;

namespace {

/// Probability of [lower, upper] under a law of Boost.Math; limits may be infinite.
template <class Distribution>
double within(const Distribution& belief, double lower, double upper) {
    const double below = std::isfinite(lower) ? cdf(belief, lower) : 0;
    // The complement keeps the digits of a probability close to 1 when only a lower limit stands.
    if (std::isinf(upper)) return std::isfinite(lower) ? cdf(complement(belief, lower)) : 1;
    return std::max(0.0, cdf(belief, upper) - below);
}

}  // namespace

double guard_band(DecisionRule rule, double expanded, double coverage_factor) {
    switch (rule) {
        case DecisionRule::Simple:
            return 0;
        case DecisionRule::GuardBand:
        case DecisionRule::GuardBandBothSides:
        case DecisionRule::NonBinary:
            return expanded;
        case DecisionRule::Iso14253_1:
            return 1.65 * expanded / coverage_factor;
    }
    return expanded;
}

double rejection_guard(DecisionRule rule, double guard, const ParameterUncertainty& uncertainty, const DeviationUnit& unit) {
    if (!uncertainty.interval || !uncertainty.interval->stated) return guard;
    switch (rule) {
        case DecisionRule::Simple:
        case DecisionRule::GuardBand:
            break;
        case DecisionRule::GuardBandBothSides:
        case DecisionRule::NonBinary:
            return std::max(guard, uncertainty.interval->below.in(unit));
        case DecisionRule::Iso14253_1:
            return std::max(guard, uncertainty.interval->below_one_sided.in(unit));
    }
    return guard;
}

Outcome judge(DecisionRule rule, double value, double limit, double guard, double guard_below) {
    const double rounding = 1e-10 * std::max({std::abs(value), std::abs(limit), std::abs(guard), std::abs(guard_below)});
    const auto up_to = [&](double edge) { return value <= edge + rounding; };
    switch (rule) {
        case DecisionRule::Simple:
        case DecisionRule::GuardBand:
            return up_to(limit - guard) ? Outcome::Pass : Outcome::Fail;
        case DecisionRule::GuardBandBothSides:
        case DecisionRule::Iso14253_1:
            if (up_to(limit - guard)) return Outcome::Pass;
            return up_to(limit + guard_below) ? Outcome::Undecided : Outcome::Fail;
        case DecisionRule::NonBinary:
            if (up_to(limit - guard)) return Outcome::Pass;
            if (up_to(limit)) return Outcome::ConditionalPass;
            return up_to(limit + guard_below) ? Outcome::ConditionalFail : Outcome::Fail;
    }
    return Outcome::NotDecided;
}

double probability_of_conformity(double value, double standard, const std::optional<double>& degrees_of_freedom, double lower,
                                 double upper) {
    if (!(standard > 0)) return lower <= value && value <= upper ? 1 : 0;
    if (!degrees_of_freedom) return within(boost::math::normal_distribution<double>(value, standard), lower, upper);
    const auto scaled = [&](double limit) { return (limit - value) / standard; };
    return within(boost::math::students_t_distribution<double>(*degrees_of_freedom), scaled(lower), scaled(upper));
}

}  // namespace wayfolio::evaluate
