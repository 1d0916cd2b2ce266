#pragma once
#include <optional>
#include <span>

namespace wayfolio::evaluate {

/// A straight line through values in the order of x, by least squares, with Student's t for its slope.
struct LinearTrend {
    double slope, intercept;
    double s;               ///< residual standard deviation
    double slope_standard;  ///< standard error of the slope
    double degrees_of_freedom;
    /// Slope over its standard error and two-sided p; empty when the values have no scatter about the line.
    std::optional<double> t, p;
};

/// @param groups for each value the group whose own level it keeps (all zero: one line); the slope is common
/// @return nothing for fewer values than two more than there are groups, or all at one x
std::optional<LinearTrend> linear_trend(std::span<const double> x, std::span<const double> y,
                                        std::span<const std::size_t> groups);
std::optional<LinearTrend> linear_trend(std::span<const double> x, std::span<const double> y);

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
