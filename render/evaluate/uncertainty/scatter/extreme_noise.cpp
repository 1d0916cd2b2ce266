#include "evaluate/uncertainty/scatter/extreme_noise.hpp"

#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace wayfolio::evaluate {

namespace {

double normal_below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// Probability that the noise is below x; cube root of a gamma variable is nearly normal.
double below(const NearLaw& near, double x) {
    constexpr double symmetric = 1e-3;
    if (!(near.standard > 0)) return x < near.mean ? 0 : 1;
    const double z = (x - near.mean) / near.standard, g = near.skewness;
    if (g < symmetric) return normal_below(z);
    const double base = 1 + g * z / 2;
    return base <= 0 ? 0 : normal_below(6 / g * (std::cbrt(base) - 1) + g / 6);
}

std::vector<NearLaw> near_the_highest(std::span<const Candidate> candidates, double closing) {
    const Candidate& top = highest(candidates);
    std::vector<NearLaw> all;
    all.reserve(candidates.size());
    double least = -INFINITY;
    for (const Candidate& candidate : candidates) {
        const double gap = top.level - candidate.level;
        const double closed = closing * std::sqrt(candidate.noise.variance + top.noise.variance);
        const double distance = gap > closed ? gap - closed * closed / gap : 0;
        const double standard = std::sqrt(candidate.noise.variance);
        const double skewness = standard > 0 ? candidate.noise.third / (standard * standard * standard) : 0;
        all.push_back({candidate.noise.mean - distance, standard, skewness});
        least = std::max(least, all.back().least());
    }
    std::erase_if(all, [&](const NearLaw& near) { return near.most() < least; });
    return all;
}

/// E (high - X)^p for p = 1, 2, 3: p times the integral of (high - x)^(p-1) F(x). `F` takes the number of a point too.
template <std::size_t points, class Distribution>
std::array<double, 3> moments_below(const Distribution& F, double low, double high) {
    using Rule = boost::math::quadrature::gauss<double, points>;
    const double middle = (low + high) / 2, half = (high - low) / 2;
    std::array<double, 3> moments{};
    std::size_t point = 0;
    for (std::size_t i = 0; i < Rule::abscissa().size(); ++i)
        for (const double side : {-1.0, 1.0}) {
            const double x = middle + side * half * Rule::abscissa()[i], depth = high - x;
            const double weight = half * Rule::weights()[i] * F(point++, x);
            moments[0] += weight;
            moments[1] += 2 * weight * depth;
            moments[2] += 3 * weight * depth * depth;
        }
    return moments;
}

/// Cornish-Fisher with one term of skewness.
double quantile_of(const Cumulants& law, double z) {
    const double standard = std::sqrt(law.variance);
    const double g = standard > 0 ? law.third / (standard * standard * standard) : 0;
    return law.mean + standard * (z + (z * z - 1) * g / 6 - (2 * z * z * z - 5 * z) * g * g / 36);
}

}  // namespace

const Candidate& highest(std::span<const Candidate> candidates) {
    return *std::max_element(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
        return a.level != b.level ? a.level < b.level : a.noise.variance < b.noise.variance;
    });
}

std::vector<MaximumNoise::Known*> MaximumNoise::known_of(const std::vector<NearLaw>& all, double low, double high) {
    constexpr std::size_t most = 4096;  // a megabyte; a series of thousands of targets starts again rather than keep them all
    if (laws_ > most) {
        known_.clear();
        laws_ = 0;
    }
    Known nothing;
    nothing.fill(NAN);
    auto& known = known_[{low, high}];
    std::vector<Known*> of_each;
    of_each.reserve(all.size());
    for (const NearLaw& near : all) {
        const auto [place, added] = known.try_emplace(near, nothing);
        of_each.push_back(&place->second);
        laws_ += added ? 1 : 0;
    }
    return of_each;
}

Cumulants MaximumNoise::of(std::span<const Candidate> candidates, double closing) {
    const std::vector<NearLaw> all = near_the_highest(candidates, closing);
    double low = -INFINITY, high = -INFINITY;
    for (const NearLaw& near : all) {
        low = std::max(low, near.least());
        high = std::max(high, near.most());
    }
    const std::vector<Known*> of_each = known_of(all, low, high);
    const auto product_below = [&](std::size_t point, double x) {
        double product = 1;
        for (std::size_t i = 0; i < all.size(); ++i) {
            double& one = (*of_each[i])[point];
            if (std::isnan(one)) one = below(all[i], x);
            product *= one;
            if (product < 1e-16) return 0.0;
        }
        return product;
    };
    const auto [first, second, third] = moments_below<points>(product_below, low, high);
    return {high - first, second - first * first, -(third - 3 * first * second + 2 * first * first * first)};
}

double upper_end(const Cumulants& law, double systematic, double degrees_of_freedom, double z) {
    const double by_scatter = quantile_of(law, z);
    Cumulants all = law;
    all.variance += systematic * systematic + by_scatter * by_scatter / (2 * degrees_of_freedom);
    return quantile_of(all, z);
}

Cumulants relative_error_of_s(double degrees_of_freedom) {
    const double nu = degrees_of_freedom;
    const double c4 = std::sqrt(2 / nu) / boost::math::tgamma_delta_ratio(nu / 2, 0.5);
    return {c4 - 1, 1 - c4 * c4, c4 * ((nu + 1) / nu - 3 + 2 * c4 * c4)};
}

}  // namespace wayfolio::evaluate
