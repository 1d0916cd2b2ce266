#pragma once
#include <optional>
#include <span>

namespace wayfolio::evaluate {

/// The rank test of Mann and Kendall for a monotonic trend: S = sum of sign(y_j - y_i), j > i, with the variance corrected for
/// ties (Gilbert, Statistical Methods for Environmental Pollution Monitoring (1987) chapter 16).
struct RankTrend {
    int S;
    double variance, z;
    double p;    ///< two-sided
    bool exact;  ///< p counted over all orders (up to ten values without ties), else by the normal approximation
};

/// @param y in order of time, at least four values; otherwise nothing
std::optional<RankTrend> rank_trend(std::span<const double> y);

}  // namespace wayfolio::evaluate
