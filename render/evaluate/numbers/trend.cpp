#include "evaluate/numbers/trend.hpp"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace wayfolio::evaluate {
namespace {

/// P(S >= s) when all orders of n distinct values are equally likely: orders counted by their number of inversions.
double exact_upper_tail(int n, int s) {
    std::vector<double> count{1};
    for (int k = 2; k <= n; ++k) {
        std::vector<double> next(count.size() + static_cast<std::size_t>(k) - 1, 0);
        for (std::size_t i = 0; i < count.size(); ++i)
            for (std::size_t j = 0; j < static_cast<std::size_t>(k); ++j) next[i + j] += count[i];
        count = std::move(next);
    }
    const int pairs = n * (n - 1) / 2;
    double tail = 0, all = 0;
    for (std::size_t inversions = 0; inversions < count.size(); ++inversions) {
        all += count[inversions];
        if (pairs - 2 * static_cast<int>(inversions) >= s) tail += count[inversions];
    }
    return tail / all;
}

}  // namespace

std::optional<RankTrend> rank_trend(std::span<const double> y) {
    const int n = static_cast<int>(y.size());
    if (n < 4) return std::nullopt;
    RankTrend trend{};
    for (std::size_t i = 0; i < y.size(); ++i)
        for (std::size_t j = i + 1; j < y.size(); ++j) trend.S += (y[j] > y[i]) - (y[j] < y[i]);
    std::vector<double> sorted(y.begin(), y.end());
    std::sort(sorted.begin(), sorted.end());
    double ties = 0;
    for (auto first = sorted.begin(); first != sorted.end();) {
        const auto last = std::upper_bound(first, sorted.end(), *first);
        const auto t = static_cast<double>(last - first);
        ties += t * (t - 1) * (2 * t + 5);
        first = last;
    }
    trend.variance = (n * (n - 1.0) * (2.0 * n + 5) - ties) / 18;
    trend.exact = n <= 10 && ties == 0;
    if (trend.variance > 0) trend.z = (trend.S - (trend.S > 0) + (trend.S < 0)) / std::sqrt(trend.variance);
    trend.p = trend.exact ? 2 * exact_upper_tail(n, std::abs(trend.S))
                          : 2 * boost::math::cdf(boost::math::complement(boost::math::normal(), std::abs(trend.z)));
    trend.p = std::min(1.0, trend.p);
    return trend;
}

}  // namespace wayfolio::evaluate
