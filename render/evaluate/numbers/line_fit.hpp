#pragma once
#include "evaluate/numbers/reference_lines.hpp"

namespace wayfolio::evaluate {

/// What least squares says about its line y = intercept + slope x (GUM H.3; JCGM 100:2008).
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

}  // namespace wayfolio::evaluate
