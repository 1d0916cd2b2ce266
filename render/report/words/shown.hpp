#pragma once
#include "document/document.hpp"
#include "report/model/text.hpp"
#include "units/number_text.hpp"
#include "units/places.hpp"

#include <initializer_list>
#include <optional>

/// Quantities as a report shows them. Units are those of the document (report/words/shown_units.hpp); the place of a number follows from
/// its uncertainty and from the last digit of the readings (units/places.hpp).
namespace wayfolio::report {

using units::Deviation;
using units::DeviationUnit;
using units::Position;
using units::PositionUnit;

/// How the numbers of one series are shown.
struct Shown {
    DeviationUnit unit = units::micrometre;
    PositionUnit position = units::position_millimetre;
    std::optional<int> reading_decimals;  ///< of the readings' last digit; nothing where there are no readings (squareness)
    int decimals = 1;                     ///< of the result that speaks for the series, and of what is said beside it
    int statistics_decimals = 2;          ///< of means, s and what single targets give: one digit beyond the readings
    units::NumberStyle style;
};

/// Stands where a value is not there.
inline constexpr const char* no_value = "\u2013";

/// Whether the unit comes with a power of ten.
bool has_factor(const Shown& shown);
/// "(2.85 ± 0.45) × 10⁻³ °" without what follows the numbers: "2.85 ± 0.45".
std::string without_factor(const std::string& result);
/// A number and its unit, kept together: "29.1 µm", "12.4″", "3.2 × 10⁻³ °".
std::string with_unit(const std::string& number, std::string_view symbol);
/// "1 000 mm", "12 in": a length that a window or a row is named by, in the unit of the positions.
std::string length_text(const Shown& shown, double mm);
std::string number_of(const Shown& shown, const Deviation& value, int decimals);
/// "29.1 µm"
std::string value_text(const Shown& shown, const Deviation& value, int decimals);
/// A place as it was written, at most three decimals: "1 740 mm", "303.8 mm", "26.5 in".
std::string position_text(const Shown& shown, const Position& position);
/// Decimals that show every target of the series where it was written, at most four.
int position_decimals(const Shown& shown, const document::Series& series);

/// Decimals of a row of numbers that stand to one place: those that the uncertainties leave, more where a value or U would print as 0.
/// Without U those of the readings.
int row_decimals(const Shown& shown, std::initializer_list<std::optional<Deviation>> values,
                 std::initializer_list<std::optional<Deviation>> uncertainties);
/// `decimals`, or as many more as keep any of the values from printing as 0.
int enough_decimals(const Shown& shown, int decimals, std::initializer_list<std::optional<Deviation>> values);
/// Decimals of one result.
int result_decimals(const Shown& shown, const std::optional<Deviation>& value, const std::optional<Deviation>& U);
/// Decimals of means, s and the like that stand in one table: `statistics_decimals`, more where the largest of them would print as 0.
int column_decimals(const Shown& shown, const std::vector<std::optional<Deviation>>& values);
/// A number beside others: to their place, with more decimals only where it would print as 0.
std::string result_number(const Shown& shown, const Deviation& value, int decimals);
/// "29.1 ± 7.5 µm"; without U the value alone.
std::string result_text(const Shown& shown, const Deviation& value, const std::optional<Deviation>& U);
std::string result_text(const Shown& shown, const Deviation& value, const std::optional<Deviation>& U, int decimals);

/// Two values to the place of their row, with the difference of what is printed.
units::PrintedDifference printed_change(const Shown& shown, const Deviation& first, const Deviation& second, int decimals);
/// Two values and their difference, as they stand in one row.
struct ChangeTexts {
    std::string first, second, change;
};
ChangeTexts change_texts(const Shown& shown, const Deviation& first, const Deviation& second, int decimals);

/// A limit as it is printed, and its decimals.
struct PrintedLimit {
    double value;  ///< in the shown unit
    int decimals;
};
PrintedLimit printed_limit(const Shown& shown, const Deviation& limit);
/// A limit as agreed: no added zeros; where another unit makes an endless number of it, four significant digits.
std::string limit_number(const Shown& shown, const Deviation& limit);
/// "limit 19.39 µrad" needs to say that 4″ was agreed: the limit as the document has it, where it stands in another unit.
std::optional<std::string> agreed_form(const Shown& shown, const document::Tolerance& tolerance);

}  // namespace wayfolio::report
