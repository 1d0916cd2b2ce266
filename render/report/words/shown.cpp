#include "report/words/shown.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

/// Metres would show the places of a short axis with too few digits.
bool is_short(const document::Series& series) {
    if (series.targets.empty()) return false;
    const auto [low, high] = std::ranges::minmax_element(series.targets, {}, &document::Target::position);
    constexpr double short_mm = 250;
    return high->position.in(units::position_millimetre) - low->position.in(units::position_millimetre) < short_mm;
}

}  // namespace

Shown shown_of(const layouts::Layout& layout, const document::Series& series, const DeviationUnit& unit) {
    const bool length = unit.dimension == units::Dimension::Length;
    const bool rotary = series.position_unit.dimension == units::Dimension::Angle;
    const layouts::UnitChoice& choice = length ? layout.length : rotary ? layout.rotary : layout.angle;
    Shown shown{.unit = units::deviation_unit(choice.unit).value_or(unit),
                .table_position = series.position_unit,
                .decimals = choice.decimals,
                .statistics_decimals = choice.statistics_decimals,
                .style = {layout.decimal_mark}};
    if (rotary) shown.position = units::position_degree;
    else if (layout.linear_position == "in") shown.position = units::position_inch;
    else if (layout.linear_position == "mm" || is_short(series)) shown.position = units::position_millimetre;
    return shown;
}

std::string with_unit(const std::string& number, std::string_view symbol) {
    // SI Brochure 5.4.3: a space before every unit symbol except those of plane angle in degrees, minutes, seconds.
    if (symbol == units::degree.symbol || symbol == units::arcsecond.symbol) return number + std::string(symbol);
    return number + std::string(units::thin_space) + std::string(symbol);
}

std::string length_text(double mm, const units::NumberStyle& style) { return with_unit(units::number(mm, 0, style), "mm"); }

std::string number_of(const Shown& shown, const Deviation& value, int decimals) {
    return units::number(value.in(shown.unit), decimals, shown.style);
}

std::string value_text(const Shown& shown, const Deviation& value, int decimals) {
    return with_unit(number_of(shown, value, decimals), shown.unit.symbol);
}

std::string position_text(const Shown& shown, const Position& position) {
    const bool metre = shown.position == units::position_metre || shown.position == units::position_inch;
    const double value = position.in(shown.position);
    if (value == 0) return with_unit("0", shown.position.symbol);
    return with_unit(units::number(value, metre ? 2 : units::decimals_needed(value, 1), shown.style), shown.position.symbol);
}

int position_decimals(const std::vector<document::Target>& targets) {
    int decimals = 0;
    constexpr int most = 3;
    for (const document::Target& target : targets) decimals = std::max(decimals, units::decimals_needed(target.written, most));
    return decimals;
}

int result_decimals(const Shown& shown, const std::optional<Deviation>& U) {
    return U && U->in(shown.unit) > 0 ? units::decimals_for_uncertainty(U->in(shown.unit)) : shown.decimals;
}

std::string result_text(const Shown& shown, const Deviation& value, const std::optional<Deviation>& U) {
    const int decimals = result_decimals(shown, U);
    if (!U) return value_text(shown, value, decimals);
    // U+00A0 and U+202F hold value, sign, U and unit on one line.
    return number_of(shown, value, decimals) + "\u00a0±\u202f" + value_text(shown, *U, decimals);
}

std::string limit_number(const Shown& shown, const Deviation& limit) {
    const double value = limit.in(shown.unit);
    constexpr int most = 2;
    return units::number(value, units::decimals_needed(value, most), shown.style);
}

}  // namespace wayfolio::report
