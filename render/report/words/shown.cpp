#include "report/words/shown.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

/// What the rounding of doubles leaves of a value that is 0: in µm or µrad.
constexpr double nothing = 1e-9;

bool is_something(const Shown& shown, const Deviation& value) { return std::abs(value.in(shown.unit) * shown.unit.in_base) > nothing; }

/// Decimals of a place, or of a distance between places; metres only where a layout asks for them.
int decimals_of_place(const PositionUnit& unit, double value) {
    constexpr int most = 3, of_metres = 2;
    return units::decimals_needed(value, unit == units::position_metre ? of_metres : most);
}

}  // namespace

bool has_factor(const Shown& shown) { return shown.unit == DeviationUnit(units::millidegree); }

std::string without_factor(const std::string& result) {
    const std::string numbers = result.substr(0, result.find("\u00a0×"));
    return numbers.starts_with('(') ? numbers.substr(1, numbers.size() - 2) : numbers;
}

std::string with_unit(const std::string& number, std::string_view symbol) {
    // A factor is part of the number's side: 3.2 × 10⁻³ ° (SI Brochure 5.4.7).
    if (symbol == units::millidegree.symbol) return number + "\u00a0×\u00a0" + std::string(symbol);
    // SI Brochure 5.4.3: a space before every unit symbol except those of plane angle in degrees, minutes, seconds.
    if (symbol == units::degree.symbol || symbol == units::arcsecond.symbol) return number + std::string(symbol);
    return number + std::string(units::thin_space) + std::string(symbol);
}

std::string length_text(const Shown& shown, double mm) {
    const PositionUnit unit = shown.position.dimension == units::Dimension::Length ? shown.position : units::position_millimetre;
    const double value = mm / unit.in_natural;
    return with_unit(units::number(value, decimals_of_place(unit, value), shown.style), unit.symbol);
}

std::string number_of(const Shown& shown, const Deviation& value, int decimals) {
    return units::number(value.in(shown.unit), decimals, shown.style);
}

std::string value_text(const Shown& shown, const Deviation& value, int decimals) {
    return with_unit(number_of(shown, value, decimals), shown.unit.symbol);
}

std::string position_text(const Shown& shown, const Position& position) {
    const double value = position.in(shown.position);
    return with_unit(units::number(value, decimals_of_place(shown.position, value), shown.style), shown.position.symbol);
}

int position_decimals(const Shown& shown, const document::Series& series) {
    int decimals = 0;
    constexpr int most = 4;
    for (const document::Target& target : series.targets)
        decimals = std::max(decimals, units::decimals_needed(target.position.in(shown.position), most));
    return decimals;
}

int row_decimals(const Shown& shown, std::initializer_list<std::optional<Deviation>> values,
                 std::initializer_list<std::optional<Deviation>> uncertainties) {
    std::optional<int> decimals;
    for (const auto& U : uncertainties) {
        if (!U || !is_something(shown, *U)) continue;
        const int deserved = units::decimals_of_result(U->in(shown.unit), shown.reading_decimals);
        decimals = std::max(decimals.value_or(deserved), deserved);
    }
    return enough_decimals(shown, decimals ? *decimals : units::decimals_of_result({}, shown.reading_decimals), values);
}

int enough_decimals(const Shown& shown, int decimals, std::initializer_list<std::optional<Deviation>> values) {
    for (const auto& value : values)
        if (value && is_something(shown, *value)) decimals = units::decimals_that_show(value->in(shown.unit), decimals);
    return decimals;
}

int result_decimals(const Shown& shown, const std::optional<Deviation>& value, const std::optional<Deviation>& U) {
    return row_decimals(shown, {value}, {U});
}

int column_decimals(const Shown& shown, const std::vector<std::optional<Deviation>>& values) {
    std::optional<Deviation> largest;
    for (const auto& value : values)
        if (value && is_something(shown, *value) && (!largest || abs(*value) > *largest)) largest = abs(*value);
    return largest ? units::decimals_that_show(largest->in(shown.unit), shown.statistics_decimals) : shown.statistics_decimals;
}

std::string result_number(const Shown& shown, const Deviation& value, int decimals) {
    const double number = value.in(shown.unit);
    return units::number(number, is_something(shown, value) ? units::decimals_that_show(number, decimals) : decimals, shown.style);
}

std::string result_text(const Shown& shown, const Deviation& value, const std::optional<Deviation>& U) {
    return result_text(shown, value, U, result_decimals(shown, value, U));
}

std::string result_text(const Shown& shown, const Deviation& value, const std::optional<Deviation>& U, int decimals) {
    if (!U) return value_text(shown, value, decimals);
    // U+00A0 and U+202F hold value, sign, U and unit on one line.
    const std::string both = number_of(shown, value, decimals) + "\u00a0±\u202f" + number_of(shown, *U, decimals);
    return with_unit(has_factor(shown) ? "(" + both + ")" : both, shown.unit.symbol);
}

units::PrintedDifference printed_change(const Shown& shown, const Deviation& first, const Deviation& second, int decimals) {
    return units::printed_difference(first.in(shown.unit), second.in(shown.unit), decimals, nothing / shown.unit.in_base);
}

ChangeTexts change_texts(const Shown& shown, const Deviation& first, const Deviation& second, int decimals) {
    const auto [places, difference] = printed_change(shown, first, second, decimals);
    return {number_of(shown, first, places), number_of(shown, second, places), units::number(difference, places, shown.style)};
}

PrintedLimit printed_limit(const Shown& shown, const Deviation& limit) {
    const double value = limit.in(shown.unit);
    constexpr int most = 9, finite = 6, significant = 4;
    int decimals = units::decimals_needed(value, most);
    // A limit that was agreed in another system of units has no end here.
    if (decimals > finite && value != 0) {
        decimals = std::max(0, significant - 1 - static_cast<int>(std::floor(std::log10(std::abs(value)))));
        decimals = units::decimals_needed(units::printed(value, decimals), decimals);
    }
    return {units::printed(value, decimals), decimals};
}

std::string limit_number(const Shown& shown, const Deviation& limit) {
    return units::number(limit.in(shown.unit), printed_limit(shown, limit).decimals, shown.style);
}

std::optional<std::string> agreed_form(const Shown& shown, const document::Tolerance& tolerance) {
    if (tolerance.unit == shown.unit) return std::nullopt;
    constexpr int most = 9;
    const double value = tolerance.limit.in(tolerance.unit);
    return with_unit(units::number(value, units::decimals_needed(value, most), shown.style), tolerance.unit.symbol);
}

}  // namespace wayfolio::report
