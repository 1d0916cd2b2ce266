#pragma once
#include <span>

/// Plain sample statistics of numbers that already share one unit.
namespace wayfolio::evaluate {

/// Arithmetic mean of at least one value, in two passes: the second adds the mean of what the first left over,
/// so that equal values give exactly that value and many constant leading digits cost nothing.
double mean(std::span<const double> values);

/// Sample standard deviation (divisor n - 1) of at least two values, in two passes with the correction of
/// Chan, Golub and LeVeque, The American Statistician 37 (1983) 242, eq. (1.7) [from memory].
double standard_deviation(std::span<const double> values);

/// Sum of the products of values at one place; `b` as long as `a`.
double dot(std::span<const double> a, std::span<const double> b);

}  // namespace wayfolio::evaluate
