#pragma once
#include <string>
#include <string_view>

/// The only place that turns numbers into text for a page. No locale, no streams.
namespace wayfolio::units {

/// U+202F NARROW NO-BREAK SPACE: between thousands, and between a number and its unit (SI Brochure 5.4.3, 5.4.4).
inline constexpr std::string_view thin_space = "\u202f";
/// U+2212 MINUS SIGN.
inline constexpr std::string_view minus_sign = "\u2212";

struct NumberStyle {
    char decimal_mark = '.';  ///< '.' or ','
};

/// `value` with a fixed number of decimals: true minus, thin spaces between thousands, never "−0.00".
/// Negative decimals round to tens, hundreds ... Rounds the double itself to nearest (a decimal half that binary cannot
/// hold, as 2.675, follows the double), exact ties to even (ISO 80000-1:2009 Annex B rule A [from memory]).
/// @throws std::logic_error if `value` is not finite: such a number never reaches a page
std::string number(double value, int decimals, NumberStyle style = {});

/// Decimals that show `expanded` at two significant digits after rounding (GUM 7.2.6): 7.53 -> 1, 0.996 -> 1 (it becomes 1.0), 12.4 -> 0,
/// 123 -> -1.
int decimals_for_uncertainty(double expanded);

/// Fewest decimals, up to `most`, that show `value` to within the rounding of doubles: 12.5 -> 1, 3 -> 0, 1/3 -> most.
int decimals_needed(double value, int most);

/// Shortest text that reads back as the same double, with "." (for files: JSON, CSV and XML have their numbers from here).
/// @throws std::logic_error if `value` is not finite
std::string shortest(double value);
/// The same behind what stands in `out`.
void append_shortest(std::string& out, double value);

}  // namespace wayfolio::units
