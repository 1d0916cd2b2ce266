#include "evaluate/numbers/spectrum/periodic.hpp"

#include "evaluate/numbers/spectrum/fourier_sums.hpp"
#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/numbers/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

namespace wayfolio::evaluate {
namespace {

using Vector = std::vector<double>;

/// 1 - 0.7^2: less than this share left means that a polynomial stands in for much of the wave, or the two waves for each other.
constexpr double least_share = 0.51;
/// Of the sum of squares: less than this left by the polynomial is rounding.
constexpr double least_scatter = 1e-24;

/// Polynomials of unit length, each orthogonal to those before: 1, x and so on.
std::vector<Vector> polynomials(std::span<const double> x, int degree) {
    const double middle = mean(x);
    double reach = 0;
    for (const double place : x) reach = std::max(reach, std::abs(place - middle));
    std::vector<Vector> all;
    for (int power = 0; power <= degree; ++power) {
        Vector next(x.size());
        for (std::size_t i = 0; i < x.size(); ++i) next[i] = std::pow((x[i] - middle) / reach, power);
        for (const Vector& before : all) {
            const double along = dot(next, before);
            for (std::size_t i = 0; i < x.size(); ++i) next[i] -= along * before[i];
        }
        const double length = std::sqrt(dot(next, next));
        for (double& value : next) value = length > 0 ? value / length : 0;
        all.push_back(std::move(next));
    }
    return all;
}

/// What polynomials leave over of `values`. Gives what is taken out along x.
double take_out(Vector& values, const std::vector<Vector>& basis) {
    double along_x = 0;
    // The level twice: many constant leading digits then cost nothing.
    const double level = mean(values);
    for (double& v : values) v -= level;
    for (std::size_t power = 0; power < basis.size(); ++power) {
        const double along = dot(values, basis[power]);
        if (power == 1) along_x = along;
        for (std::size_t i = 0; i < values.size(); ++i) values[i] -= along * basis[power][i];
    }
    return along_x;
}

/// A sine fitted with polynomials that are known.
std::optional<PeriodicFit> fit_with(std::span<const double> x, std::span<const double> y, double frequency,
                                    const std::vector<Vector>& basis) {
    const std::size_t n = x.size();
    Vector cosine(n), sine(n), rest(y.begin(), y.end());
    constexpr double two_pi = 6.28318530717958647692;
    for (std::size_t i = 0; i < n; ++i) {
        cosine[i] = std::cos(two_pi * frequency * x[i]);
        sine[i] = std::sin(two_pi * frequency * x[i]);
    }
    const double total = dot(rest, rest), cosine_before = dot(cosine, cosine), sine_before = dot(sine, sine);
    const double along_x = take_out(rest, basis);
    const double cosine_along = take_out(cosine, basis), sine_along = take_out(sine, basis);
    const double cc = dot(cosine, cosine), ss = dot(sine, sine), cs = dot(cosine, sine);
    const double before = dot(rest, rest), determinant = cc * ss - cs * cs;
    if (cc < least_share * cosine_before || ss < least_share * sine_before || determinant < least_share * cc * ss)
        return std::nullopt;
    if (!(before > least_scatter * total)) return std::nullopt;
    const double yc = dot(rest, cosine), ys = dot(rest, sine);
    const double a = (yc * ss - ys * cs) / determinant, b = (ys * cc - yc * cs) / determinant;
    const double length_of_x = dot(basis[1], x);
    PeriodicFit fit{frequency,         std::clamp((a * yc + b * ys) / before, 0.0, 1.0),             std::hypot(a, b),
                    std::atan2(-b, a), (along_x - a * cosine_along - b * sine_along) / length_of_x, 1};
    fit.p_single = std::pow(1 - fit.z, (static_cast<double>(n) - static_cast<double>(basis.size()) - 2) / 2);
    return fit;
}

/// A frequency with the share that a sine of it explains, as fast sums give it.
struct Candidate {
    double frequency, z;
};

/// Fast sums give z to much better than this.
constexpr double close_enough = 1e-6;

/// What least_share of fit_with() takes out, less a little: what is taken out for certain.
constexpr double surely_too_small = least_share - 1e-3;

/// The frequencies whose fit can be had, by falling z: fit_with() of the first few finds what it finds of all of them.
std::vector<Candidate> candidates(std::span<const double> x, std::span<const double> y, const FrequencyGrid& grid,
                                  const std::vector<Vector>& basis) {
    Vector rest(y.begin(), y.end());
    take_out(rest, basis);
    const double before = dot(rest, rest);
    std::vector<Candidate> all;
    if (!(before > least_scatter * dot(y, y))) return all;
    const auto n = static_cast<double>(x.size());
    const Vector ones(x.size(), 1);
    std::vector<Weighting> weightings{{rest, grid}};
    for (const Vector& polynomial : basis) weightings.push_back({polynomial, grid});
    weightings.push_back({ones, {2 * grid.first, 2 * grid.step, grid.count}});
    const std::vector<FourierSums> sums = fourier_sums(x, weightings);
    const FourierSums &of_rest = sums.front(), &doubled = sums.back();
    const std::span of_basis(sums.begin() + 1, basis.size());
    all.reserve(grid.count);
    for (std::size_t i = 0; i < grid.count; ++i) {
        const double cosine_before = (n + doubled.cosine[i]) / 2, sine_before = (n - doubled.cosine[i]) / 2;
        double cc = cosine_before, ss = sine_before, cs = doubled.sine[i] / 2;
        for (const FourierSums& of : of_basis) {
            cc -= of.cosine[i] * of.cosine[i];
            ss -= of.sine[i] * of.sine[i];
            cs -= of.cosine[i] * of.sine[i];
        }
        const double determinant = cc * ss - cs * cs, yc = of_rest.cosine[i], ys = of_rest.sine[i];
        if (cc < surely_too_small * cosine_before || ss < surely_too_small * sine_before || determinant < surely_too_small * cc * ss ||
            !(determinant > 0))
            continue;
        const double a = (yc * ss - ys * cs) / determinant, b = (ys * cc - yc * cs) / determinant;
        all.push_back({grid.at(i), (a * yc + b * ys) / before});
    }
    std::ranges::stable_sort(all, std::greater{}, &Candidate::z);
    return all;
}

/// std::lgamma() writes the sign to a variable of the whole process.
double log_gamma(double x) {
    int sign = 0;
    return ::lgamma_r(x, &sign);
}

/// Values fewer than this leave nothing to judge by.
std::size_t fewest_values(int degree) { return static_cast<std::size_t>(degree) + 5; }

}  // namespace

std::optional<PeriodicFit> fit_periodic(std::span<const double> x, std::span<const double> y, double frequency, int degree) {
    if (x.size() < fewest_values(degree)) return std::nullopt;
    const auto [low, high] = std::minmax_element(x.begin(), x.end());
    if (!(*high > *low)) return std::nullopt;
    return fit_with(x, y, frequency, polynomials(x, degree));
}

double baluev_bound(std::span<const double> x, double z, double highest, int degree) {
    const auto N = static_cast<double>(x.size());
    const double middle = mean(x);
    double variance = 0;
    for (const double place : x) variance += (place - middle) * (place - middle) / N;
    const double K = N - degree - 1;  // left after the polynomial
    const double width = highest * std::sqrt(4 * 3.14159265358979323846 * variance);
    const double gamma = std::sqrt(2 / K) * std::exp(log_gamma(K / 2) - log_gamma((K - 1) / 2));
    const double tau = gamma * width * std::pow(1 - z, (K - 3) / 2) * std::sqrt(K * z / 2);
    const double single = std::pow(1 - z, (N - degree - 3) / 2);
    // 1 - (1 - single) exp(-tau), without losing small values
    return std::clamp(-std::expm1(-tau) + single * std::exp(-tau), 0.0, 1.0);
}

std::optional<PeriodicPeak> periodic_peak(std::span<const double> x, std::span<const double> y, double lowest, double highest,
                                          int degree) {
    if (x.size() < fewest_values(degree) || !(highest >= lowest)) return std::nullopt;
    const auto [low, high] = std::minmax_element(x.begin(), x.end());
    constexpr double fine = 0.05;
    const double step = fine / (*high - *low);
    FrequencyGrid grid{lowest, step, static_cast<std::size_t>((highest - lowest) / step)};
    while (grid.at(grid.count) <= highest) ++grid.count;
    const auto basis = polynomials(x, degree);
    std::optional<PeriodicFit> best;
    for (const Candidate& candidate : candidates(x, y, grid, basis)) {
        if (best && candidate.z < best->z - close_enough) break;
        const auto fit = fit_with(x, y, candidate.frequency, basis);
        if (fit && (!best || fit->z > best->z || (fit->z == best->z && fit->frequency < best->frequency))) best = fit;
    }
    if (!best) return std::nullopt;
    return PeriodicPeak{*best, baluev_bound(x, best->z, highest, degree), highest};
}

}  // namespace wayfolio::evaluate
