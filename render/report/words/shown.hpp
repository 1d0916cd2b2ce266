#pragma once
#include "document/document.hpp"
#include "layouts/layout.hpp"
#include "report/model/text.hpp"
#include "units/number_text.hpp"

#include <optional>

/// Quantities as a report shows them: units and decimals by the layout, decimals of a result by its uncertainty.
namespace wayfolio::report {

using units::Deviation;
using units::DeviationUnit;
using units::Position;
using units::PositionUnit;

/// How the numbers of one series are shown.
struct Shown {
    DeviationUnit unit = units::micrometre;
    PositionUnit position = units::position_metre;       ///< figures
    PositionUnit table_position = units::position_millimetre;  ///< tables: as the readings were taken
    int decimals = 1, statistics_decimals = 2;
    units::NumberStyle style;
};

/// The layout's choice for a series whose values stand in `unit`; unit "series" keeps that unit.
Shown shown_of(const layouts::Layout& layout, const document::Series& series, const DeviationUnit& unit);

/// Stands where a value is not there.
inline constexpr const char* no_value = "\u2013";


/// A number and its unit, kept together: "29.1 µm", "12.4″".
std::string with_unit(const std::string& number, std::string_view symbol);
/// "1 000 mm": a length that a window or a row is named by, in whole millimetres.
std::string length_text(double mm, const units::NumberStyle& style);
std::string number_of(const Shown& shown, const Deviation& value, int decimals);
/// "29.1 µm"
std::string value_text(const Shown& shown, const Deviation& value, int decimals);
/// Places at 2 decimals of metre, whole degrees or millimetres: "1.74 m".
std::string position_text(const Shown& shown, const Position& position);
/// Decimals that show `written` positions exactly, at most three.
int position_decimals(const std::vector<document::Target>& targets);

/// Decimals of a result: two significant digits of U (GUM 7.2.6), the layout's where there is no U.
int result_decimals(const Shown& shown, const std::optional<Deviation>& U);
/// "29.1 ± 7.5 µm"; without U the value alone.
std::string result_text(const Shown& shown, const Deviation& value, const std::optional<Deviation>& U);
/// A limit as written: no more decimals than it needs, at most two.
std::string limit_number(const Shown& shown, const Deviation& limit);

}  // namespace wayfolio::report
