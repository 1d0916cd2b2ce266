#include "gather/shapes/surroundings.hpp"

#include <cmath>
#include <numbers>

namespace wayfolio::gather {

Decimal in_document_unit(const Decimal& number, const std::string& unit) {
    if (unit == "kPa") return product(number, 10);
    if (unit == "Pa") return product(number, 0.01);
    if (unit == "F") return decimal_of((number.value() - 32) * 5 / 9);
    return number;
}

double deviation_units_in(const SeriesMapping& series) {
    const bool length = series.position_unit.dimension == units::Dimension::Length;
    const double in_base = series.position_unit.in_natural * (length ? 1e3 : 1e6 * std::numbers::pi / 180);  // mm in um, deg in urad
    const double factor = in_base / series.unit.in_base, whole = std::round(factor);
    // 3600 arcsec are in a degree, whatever the division of two doubles gives.
    return whole != 0 && std::abs(factor - whole) < 1e-9 * factor ? whole : factor;
}

}  // namespace wayfolio::gather
