#pragma once
#include <cstddef>
#include <optional>
#include <span>

/// Straight lines by least squares of the deviations along y, in plain numbers.
namespace wayfolio::evaluate {

/// y = y0 + slope (x - x0). Held at a point inside the data, so that far positions cost no digits.
struct Line {
    double slope = 0, x0 = 0, y0 = 0;
    [[nodiscard]] double at(double x) const { return y0 + slope * (x - x0); }
};

/// Slope of the line through points about their means: sum of dx dy over sum of dx^2. Not all dx are 0.
double slope_about_means(std::span<const double> dx, std::span<const double> dy);

/// ISO 230-1:2012 3.4.14 [clause from memory]. Needs two points.
Line least_squares_line(std::span<const double> x, std::span<const double> y);

/// What least squares says of the uncertainty of its line y = intercept + slope x (GUM H.3; JCGM 100:2008).
struct LineFit {
    Line line;
    double residual_standard_deviation;  ///< s, with n - 2
    double u_slope, u_intercept;         ///< standard uncertainties
    double correlation;                  ///< of intercept and slope
    std::size_t degrees_of_freedom;      ///< n - 2

    /// Standard uncertainty of the line at a place.
    [[nodiscard]] double u_at(double x) const;
};

/// Needs three points.
LineFit fit_line(std::span<const double> x, std::span<const double> y);

/// A straight line for each group of values, all of one slope, with Student's t for the slope.
struct LinearTrend {
    double slope;
    double intercept;       ///< of the first group's line, at x = 0
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

}  // namespace wayfolio::evaluate
