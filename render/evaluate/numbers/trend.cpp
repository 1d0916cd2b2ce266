#include "evaluate/numbers/trend.hpp"

#include "evaluate/numbers/statistics.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace wayfolio::evaluate {
namespace {

/// Takes from each value the mean of its group; gives the means.
std::vector<double> centre(std::vector<double>& values, std::span<const std::size_t> groups, std::size_t count) {
    std::vector<double> means(count, 0);
    for (std::size_t g = 0; g < count; ++g) {
        std::vector<double> members;
        for (std::size_t i = 0; i < values.size(); ++i)
            if (groups[i] == g) members.push_back(values[i]);
        if (!members.empty()) means[g] = mean(members);
    }
    for (std::size_t i = 0; i < values.size(); ++i) values[i] -= means[groups[i]];
    return means;
}

}  // namespace

std::optional<LinearTrend> linear_trend(std::span<const double> x, std::span<const double> y,
                                        std::span<const std::size_t> groups) {
    const std::size_t n = y.size();
    const std::size_t levels = n == 0 ? 0 : *std::max_element(groups.begin(), groups.end()) + 1;
    if (n < levels + 2) return std::nullopt;
    std::vector<double> dx(x.begin(), x.end()), dy(y.begin(), y.end());
    const auto x_means = centre(dx, groups, levels), y_means = centre(dy, groups, levels);
    const double sxx = std::inner_product(dx.begin(), dx.end(), dx.begin(), 0.0);
    if (!(sxx > 0)) return std::nullopt;
    LinearTrend trend{};
    trend.slope = std::inner_product(dx.begin(), dx.end(), dy.begin(), 0.0) / sxx;
    trend.intercept = y_means[0] - trend.slope * x_means[0];
    double squares = 0, total = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const double residual = dy[i] - trend.slope * dx[i];
        squares += residual * residual;
        total += dy[i] * dy[i];
    }
    trend.degrees_of_freedom = static_cast<double>(n - levels - 1);
    trend.s = std::sqrt(squares / trend.degrees_of_freedom);
    trend.slope_standard = trend.s / std::sqrt(sxx);
    // What rounding leaves of a perfect line is no scatter.
    if (squares <= 1e-24 * total || total == 0) return trend;
    trend.t = trend.slope / trend.slope_standard;
    const boost::math::students_t distribution(trend.degrees_of_freedom);
    trend.p = 2 * boost::math::cdf(boost::math::complement(distribution, std::abs(*trend.t)));
    return trend;
}

std::optional<LinearTrend> linear_trend(std::span<const double> x, std::span<const double> y) {
    return linear_trend(x, y, std::vector<std::size_t>(y.size(), 0));
}

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
