#include "evaluate/numbers/line_fit.hpp"

#include <cmath>

namespace wayfolio::evaluate {

double LineFit::u_at(double x) const {
    const double variance = u_intercept * u_intercept + x * x * u_slope * u_slope + 2 * x * u_intercept * u_slope * correlation;
    return std::sqrt(std::max(0.0, variance));
}

LineFit fit_line(std::span<const double> x, std::span<const double> y) {
    const auto n = static_cast<double>(x.size());
    const Line line = least_squares_line(x, y);
    double xx = 0, residuals = 0, raw = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += (x[i] - line.x0) * (x[i] - line.x0);
        raw += x[i] * x[i];
        residuals += (y[i] - line.at(x[i])) * (y[i] - line.at(x[i]));
    }
    const double s = std::sqrt(residuals / (n - 2));
    return {.line = line,
            .residual_standard_deviation = s,
            .u_slope = s / std::sqrt(xx),
            .u_intercept = s * std::sqrt(raw / (n * xx)),
            .correlation = -line.x0 / std::sqrt(raw / n),
            .degrees_of_freedom = x.size() - 2};
}

}  // namespace wayfolio::evaluate
