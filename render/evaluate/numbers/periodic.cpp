#include "evaluate/numbers/periodic.hpp"

#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/numbers/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace wayfolio::evaluate {
namespace {

using Vector = std::vector<double>;

/// What a line leaves over: the part of `values` orthogonal to 1 and x. Gives the slope taken out, too.
double take_line_out(Vector& values, const Vector& centred_x) {
    const double level = mean(values);
    for (double& v : values) v -= level;
    const double slope = slope_about_means(centred_x, values);
    for (std::size_t i = 0; i < values.size(); ++i) values[i] -= slope * centred_x[i];
    return slope;
}

}  // namespace

std::optional<PeriodicFit> fit_periodic(std::span<const double> x, std::span<const double> y, double frequency) {
    const std::size_t n = x.size();
    if (n < 6) return std::nullopt;
    Vector centred(x.begin(), x.end()), cosine(n), sine(n), rest(y.begin(), y.end());
    const double middle = mean(x);
    for (double& place : centred) place -= middle;
    if (!(dot(centred, centred) > 0)) return std::nullopt;
    constexpr double two_pi = 6.28318530717958647692;
    for (std::size_t i = 0; i < n; ++i) {
        cosine[i] = std::cos(two_pi * frequency * x[i]);
        sine[i] = std::sin(two_pi * frequency * x[i]);
    }
    const double total = dot(rest, rest), cosine_before = dot(cosine, cosine), sine_before = dot(sine, sine);
    const double slope = take_line_out(rest, centred);
    const double cosine_slope = take_line_out(cosine, centred), sine_slope = take_line_out(sine, centred);
    const double cc = dot(cosine, cosine), ss = dot(sine, sine), cs = dot(cosine, sine);
    const double before = dot(rest, rest), determinant = cc * ss - cs * cs;
    // 1 - 0.7^2: less than this share left means that a line stands in for much of the wave, or the two waves for each other.
    constexpr double least_share = 0.51;
    if (cc < least_share * cosine_before || ss < least_share * sine_before || determinant < least_share * cc * ss)
        return std::nullopt;
    if (!(before > 1e-24 * total)) return std::nullopt;
    const double yc = dot(rest, cosine), ys = dot(rest, sine);
    const double a = (yc * ss - ys * cs) / determinant, b = (ys * cc - yc * cs) / determinant;
    PeriodicFit fit{frequency,         std::clamp((a * yc + b * ys) / before, 0.0, 1.0), std::hypot(a, b),
                    std::atan2(-b, a), slope - a * cosine_slope - b * sine_slope,        1};
    fit.p_single = std::pow(1 - fit.z, (static_cast<double>(n) - 4) / 2);
    return fit;
}

double baluev_bound(std::span<const double> x, double z, double highest) {
    const auto N = static_cast<double>(x.size());
    const double middle = mean(x);
    double variance = 0;
    for (const double place : x) variance += (place - middle) * (place - middle) / N;
    const double K = N - 2;  // left after the straight line
    const double width = highest * std::sqrt(4 * 3.14159265358979323846 * variance);
    const double gamma = std::sqrt(2 / K) * std::exp(std::lgamma(K / 2) - std::lgamma((K - 1) / 2));
    const double tau = gamma * width * std::pow(1 - z, (K - 3) / 2) * std::sqrt(K * z / 2);
    const double single = std::pow(1 - z, (N - 4) / 2);
    // 1 - (1 - single) exp(-tau), without losing small values
    return std::clamp(-std::expm1(-tau) + single * std::exp(-tau), 0.0, 1.0);
}

std::optional<PeriodicPeak> periodic_peak(std::span<const double> x, std::span<const double> y, double lowest, double highest) {
    if (x.size() < 6) return std::nullopt;
    const auto [low, high] = std::minmax_element(x.begin(), x.end());
    constexpr double most_values = 4e6, fine = 0.05, coarse = 0.2;
    const double most_frequencies = most_values / static_cast<double>(x.size()), length = *high - *low;
    const double step = ((highest - lowest) * length / fine > most_frequencies ? coarse : fine) / length;
    highest = std::min(highest, lowest + step * most_frequencies);
    std::optional<PeriodicFit> best;
    for (std::size_t i = 0; lowest + step * static_cast<double>(i) <= highest; ++i) {
        const auto fit = fit_periodic(x, y, lowest + step * static_cast<double>(i));
        if (fit && (!best || fit->z > best->z)) best = fit;
    }
    if (!best) return std::nullopt;
    return PeriodicPeak{*best, baluev_bound(x, best->z, highest), highest};
}

}  // namespace wayfolio::evaluate
