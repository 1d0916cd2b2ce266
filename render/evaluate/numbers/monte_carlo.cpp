#include "evaluate/numbers/monte_carlo.hpp"

#include "evaluate/numbers/statistics.hpp"

#include <boost/random/chi_squared_distribution.hpp>
#include <boost/random/exponential_distribution.hpp>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

double Draws::triangular(double low, double high) { return low + (high - low) / 2 * (uniform_(engine_) + uniform_(engine_)); }

double Draws::u_shaped(double low, double high) {
    constexpr double two_pi = 6.28318530717958647692;
    return (low + high) / 2 + (high - low) / 2 * std::sin(two_pi * uniform_(engine_));
}

double Draws::student(double location, double scale, double degrees_of_freedom) {
    boost::random::chi_squared_distribution<double> chi_squared(degrees_of_freedom);
    return location + scale * normal_(engine_) / std::sqrt(chi_squared(engine_) / degrees_of_freedom);
}

double Draws::curvilinear_trapezoid(double low, double high, double d) {
    const double a = rectangular(low - d, low + d);
    const double b = low + high - a;
    return rectangular(a, b);
}

double Draws::chi_squared(std::size_t degrees_of_freedom) {
    constexpr std::size_t few = 32;
    if (degrees_of_freedom > few)
        return boost::random::chi_squared_distribution<double>(static_cast<double>(degrees_of_freedom))(engine_);
    // Two degrees of freedom are an exponential of mean 2: faster than the general way for the few runs of an axis test.
    boost::random::exponential_distribution<double> exponential;
    double sum = 0;
    for (std::size_t pair = 0; pair < degrees_of_freedom / 2; ++pair) sum += 2 * exponential(engine_);
    if (degrees_of_freedom % 2 == 1) {
        const double odd = normal_(engine_);
        sum += odd * odd;
    }
    return sum;
}

namespace {

/// Places of the ends of the symmetric interval among M sorted values, JCGM 101 7.7.2: q = pM (rounded), r = (M - q) / 2.
std::pair<std::size_t, std::size_t> interval_places(std::size_t count, double coverage) {
    const auto within = static_cast<std::size_t>(std::floor(coverage * static_cast<double>(count) + 0.5));
    const std::size_t low = (count - within + 1) / 2;
    return {low == 0 ? 0 : low - 1, std::min(count - 1, low + within - (low == 0 ? 0 : 1))};
}

}  // namespace

Simulated summary(std::vector<double> values, double coverage) {
    Simulated result{mean(values), standard_deviation(values), {}};
    const auto [low, high] = interval_places(values.size(), coverage);
    const auto at = [&](std::size_t place) {
        std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(place), values.end());
        return values[place];
    };
    result.symmetric = {at(low), at(high)};
    return result;
}

Interval shortest_interval(std::vector<double> values, double coverage) {
    std::sort(values.begin(), values.end());
    const auto within = static_cast<std::size_t>(std::floor(coverage * static_cast<double>(values.size()) + 0.5));
    Interval best{values.front(), values.back()};
    for (std::size_t first = 0; first + within < values.size(); ++first)
        if (values[first + within] - values[first] < best.high - best.low) best = {values[first], values[first + within]};
    return best;
}

double numerical_tolerance(double standard, int digits) {
    if (!(standard > 0)) return 0;
    int exponent = static_cast<int>(std::floor(std::log10(standard)));
    // Rounding may carry into the next decade: 0.96 with one digit is 1 x 10^0.
    if (std::round(standard * std::pow(10, digits - 1 - exponent)) >= std::pow(10, digits)) ++exponent;
    return std::pow(10, exponent - digits + 1) / 2;
}

Validation validate(double estimate, double expanded, double standard, const Interval& simulated, int digits) {
    Validation result{std::abs(estimate - expanded - simulated.low), std::abs(estimate + expanded - simulated.high),
                      numerical_tolerance(standard, digits), false};
    result.validated = result.d_low <= result.tolerance && result.d_high <= result.tolerance;
    return result;
}

}  // namespace wayfolio::evaluate
