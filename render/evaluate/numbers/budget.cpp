#include "evaluate/numbers/budget.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

namespace {

/// Signed contribution of a single contributor, or the magnitude of a combined one with the sign of its sensitivity.
double contribution_of(const Component& component) { return std::copysign(combine(component).standard, component.sensitivity); }

/// What a part brings to its component: its contribution to a sum, its variance otherwise.
double weight_of(const Component& part, Law law) {
    const double contribution = contribution_of(part);
    return law == Law::Sum ? contribution : contribution * contribution;
}

void collect(const Component& component, double factor, double share, std::string_view correlated, std::vector<Share>& into) {
    factor *= std::abs(component.sensitivity);
    if (component.parts.empty()) {
        into.push_back({&component, factor * component.standard, share, correlated});
        return;
    }
    if (component.law == Law::Sum && !component.name.empty()) correlated = component.name;
    double total = 0;
    for (const Component& part : component.parts) total += weight_of(part, component.law);
    for (const Component& part : component.parts)
        collect(part, factor, total != 0 ? share * weight_of(part, component.law) / total : 0, correlated, into);
}

}  // namespace

Combined combine(const Component& component) {
    if (component.parts.empty()) return {std::abs(component.sensitivity) * component.standard, component.degrees_of_freedom};
    double sum = 0, scatter = 0;
    const double power = component.law == Law::Sum ? 2 : 4;
    for (const Component& part : component.parts) {
        sum += weight_of(part, component.law);
        if (const auto nu = combine(part).degrees_of_freedom) scatter += std::pow(contribution_of(part), power) / *nu;
    }
    const double standard = component.law == Law::Sum ? std::abs(sum) : std::sqrt(sum);
    Combined combined{std::abs(component.sensitivity) * standard, std::nullopt};
    if (scatter > 0) combined.degrees_of_freedom = std::pow(standard, power) / scatter;
    return combined;
}

std::vector<Share> shares(const Component& component) {
    std::vector<Share> all;
    collect(component, 1, 1, {}, all);
    return all;
}

double truncated(double degrees_of_freedom) {
    // 18.999999999 that doubles made of an exact 19 stays 19.
    return std::max(1.0, std::floor(degrees_of_freedom * (1 + 1e-12)));
}

double coverage_factor(const std::optional<double>& degrees_of_freedom, double coverage) {
    const double tail = (1 - coverage) / 2;
    if (!degrees_of_freedom) return quantile(complement(boost::math::normal_distribution<double>(), tail));
    return quantile(complement(boost::math::students_t_distribution<double>(*degrees_of_freedom), tail));
}

double coverage_reached(const std::optional<double>& degrees_of_freedom, double factor) {
    const double below = degrees_of_freedom ? cdf(boost::math::students_t_distribution<double>(*degrees_of_freedom), factor)
                                            : cdf(boost::math::normal_distribution<double>(), factor);
    return 2 * below - 1;
}

double uncertainty_of_standard_deviation(double s, std::size_t n) { return s / std::sqrt(2.0 * (static_cast<double>(n) - 1)); }

}  // namespace wayfolio::evaluate
