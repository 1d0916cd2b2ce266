#pragma once
#include <optional>

/// To which place a quantity is written. Rounding by the uncertainty is GUM 7.2.6; that no digit goes further than one beyond the last of
/// the readings, and that nothing which is not 0 prints as 0, is common practice, no source.
namespace wayfolio::units {

/// Decimals of the last digit of readings that come in steps of `step`: 0.1 -> 1, 1 -> 0, 0.48 -> 1, 25.4 -> -1.
int decimals_of_step(double step);

/// `decimals`, or as many more as keep `value` from printing as 0; what is 0 itself asks for none. At most 12.
int decimals_that_show(double value, int decimals);

/// Decimals of a result and its expanded uncertainty `U`: two significant digits of U, but at most one digit beyond the readings' last, and
/// never so few that U prints as 0. Without U those of the readings; where neither is known, one.
/// @param reading  decimals of the readings' last digit
int decimals_of_result(const std::optional<double>& U, const std::optional<int>& reading);

/// `value` rounded as number() prints it.
double printed(double value, int decimals);

/// Two values to one place, and the difference of what is printed, so that it closes: 26.9 - 71.8 = -44.9.
struct PrintedDifference {
    int decimals;
    double value;  ///< second less first
};
/// To `decimals`, or to as many more as show that two different values differ.
/// @param nothing  what the rounding of doubles leaves of a difference that is 0
PrintedDifference printed_difference(double first, double second, int decimals, double nothing);

}  // namespace wayfolio::units
