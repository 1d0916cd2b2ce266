#include "evaluate/numbers/least_squares.hpp"

#include "evaluate/numbers/statistics.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace wayfolio::evaluate {
namespace {

/// What values differ from one level by.
std::vector<double> off_level(std::span<const double> values, double level) {
    std::vector<double> rest(values.begin(), values.end());
    for (double& value : rest) value -= level;
    return rest;
}

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

double slope_about_means(std::span<const double> dx, std::span<const double> dy) { return dot(dx, dy) / dot(dx, dx); }

Line least_squares_line(std::span<const double> x, std::span<const double> y) {
    const double x0 = mean(x), y0 = mean(y);
    return {slope_about_means(off_level(x, x0), off_level(y, y0)), x0, y0};
}

double LineFit::u_at(double x) const {
    const double variance = u_intercept * u_intercept + x * x * u_slope * u_slope + 2 * x * u_intercept * u_slope * correlation;
    return std::sqrt(std::max(0.0, variance));
}

LineFit fit_line(std::span<const double> x, std::span<const double> y) {
    const auto n = static_cast<double>(x.size());
    const Line line = least_squares_line(x, y);
    const std::vector<double> dx = off_level(x, line.x0);
    double squares = 0;
    for (std::size_t i = 0; i < x.size(); ++i) squares += (y[i] - line.at(x[i])) * (y[i] - line.at(x[i]));
    const double s = std::sqrt(squares / (n - 2)), xx = dot(dx, dx), raw = dot(x, x);
    return {.line = line,
            .residual_standard_deviation = s,
            .u_slope = s / std::sqrt(xx),
            .u_intercept = s * std::sqrt(raw / (n * xx)),
            .correlation = -line.x0 / std::sqrt(raw / n),
            .degrees_of_freedom = x.size() - 2};
}

std::optional<LinearTrend> linear_trend(std::span<const double> x, std::span<const double> y,
                                        std::span<const std::size_t> groups) {
    const std::size_t n = y.size();
    const std::size_t levels = n == 0 ? 0 : *std::max_element(groups.begin(), groups.end()) + 1;
    if (n < levels + 2) return std::nullopt;
    std::vector<double> dx(x.begin(), x.end()), dy(y.begin(), y.end());
    const auto x_means = centre(dx, groups, levels), y_means = centre(dy, groups, levels);
    const double xx = dot(dx, dx);
    if (!(xx > 0)) return std::nullopt;
    LinearTrend trend{};
    trend.slope = slope_about_means(dx, dy);
    trend.intercept = y_means[0] - trend.slope * x_means[0];
    double squares = 0, total = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const double residual = dy[i] - trend.slope * dx[i];
        squares += residual * residual;
        total += dy[i] * dy[i];
    }
    trend.degrees_of_freedom = static_cast<double>(n - levels - 1);
    trend.s = std::sqrt(squares / trend.degrees_of_freedom);
    trend.slope_standard = trend.s / std::sqrt(xx);
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

}  // namespace wayfolio::evaluate
