#pragma once
#include "catalogue/history.hpp"
#include "report/model/text.hpp"
#include "units/number_text.hpp"

/// The words and numbers of a history, for terminal and figure alike.
namespace wayfolio::catalogue {

/// The unit as printed: "µm".
std::string printed_unit(const HistoryLine& line);
/// Decimals that the smallest U deserves (GUM 7.2.6); without U three significant digits of the largest value.
int decimals_of(const HistoryLine& line);
/// "8.00 µm"
std::string value_words(const HistoryLine& line, double value, units::NumberStyle style);
/// A limit as it was written: "10 µm".
std::string limit_words(const HistoryLine& line, double limit, units::NumberStyle style);
/// "rises by 1.2 µm a year (20 values, p < 0.001)", "no trend shown (...)", or why there is none.
std::string trend_words(const HistoryLine& line, units::NumberStyle style);
/// "Grew by 18.2 ± 3.2 µm a year, 2023-09 to 2025-04"; "No slope beyond its U", or why there is none.
report::Text slope_words_of(const HistoryLine& line, units::NumberStyle style);
/// "A and E of EXX grew; R of EXX shows no slope beyond its U from 2023-05 to 2025-05.": what the slopes of the drawn lines say together.
/// Nothing where no line has values enough for a slope; a line that has too few is not spoken of.
report::Text lead_of(const std::vector<const HistoryLine*>& drawn);
/// "EXX E"
std::string short_name(const HistoryLine& line);
/// "Positioning EXX, E"; with the reference line, and the series where it tells lines apart.
std::string line_name(const HistoryLine& line);
/// "2028-03": the month so many years after a day.
std::string month_after(const std::string& day, double years);

}  // namespace wayfolio::catalogue
