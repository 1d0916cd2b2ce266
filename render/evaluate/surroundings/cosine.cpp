#include "evaluate/surroundings/surroundings.hpp"

#include "evaluate/surroundings/axis_length.hpp"
#include "units/number_text.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

double cosine_error_um(double length_mm, double angle_rad) {
    const double half = std::sin(angle_rad / 2);  // 1 - cos loses all digits at small angles
    return 1000 * length_mm * 2 * half * half;
}

namespace {

struct OffsetReading {
    std::size_t check;
    std::string axis, stem;
    double position_mm, offset_mm, half_digit_mm;
};

/// Half a unit of the last decimal digit that a number is written with.
double half_last_digit(double value) {
    constexpr int most = 9;
    double unit = 1;
    for (int decimals = units::decimals_needed(value, most); decimals > 0; --decimals) unit /= 10;
    return unit / 2;
}

std::vector<OffsetReading> offset_readings(const document::Document& document) {
    std::vector<OffsetReading> readings;
    if (!document.setup) return readings;
    for (std::size_t i = 0; i < document.setup->checks.size(); ++i) {
        const auto& check = document.setup->checks[i];
        const auto unit = units::deviation_unit(check.unit);
        const auto* axis = document::find_axis(document, check.axis);
        if (!check.reading || !check.position || !unit || unit->dimension != units::Dimension::Length) continue;
        if (check.axis.empty() || (axis && axis->kind == document::AxisKind::Rotary)) continue;
        const double to_mm = unit->in_base / units::millimetre.in_base;
        // A reflector that stands off the beam by d sends it back displaced by 2 d [geometry of a retroreflector].
        const double offset_mm = check.read_on == document::ReadOn::ReturningBeam ? to_mm / 2 : to_mm;
        readings.push_back({i, check.axis, check.name.substr(0, check.name.rfind(',')), *check.position, *check.reading * offset_mm,
                            half_last_digit(*check.reading) * offset_mm});
    }
    return readings;
}

/// Slope of one pair and what its digits leave open; nothing for readings at one place only.
struct Slope {
    double value, open;
    double distance_mm;
    std::size_t first, last;
};

std::optional<Slope> slope_of_pair(const std::vector<OffsetReading>& group) {
    const auto [low, high] = std::minmax_element(group.begin(), group.end(),
                                                 [](const auto& a, const auto& b) { return a.position_mm < b.position_mm; });
    const double distance = high->position_mm - low->position_mm;
    if (distance <= 0) return std::nullopt;
    return Slope{(high->offset_mm - low->offset_mm) / distance, (low->half_digit_mm + high->half_digit_mm) / distance, distance,
                 low->check, high->check};
}

struct AxisSlopes {
    std::string axis;
    std::vector<Slope> slopes;
};

std::vector<AxisSlopes> slopes_by_axis(const std::vector<OffsetReading>& readings) {
    std::vector<AxisSlopes> axes;
    std::vector<std::pair<std::string, std::string>> seen;
    for (const OffsetReading& reading : readings) {
        const std::pair key{reading.axis, reading.stem};
        if (std::find(seen.begin(), seen.end(), key) != seen.end()) continue;
        seen.push_back(key);
        std::vector<OffsetReading> group;
        std::copy_if(readings.begin(), readings.end(), std::back_inserter(group),
                     [&](const auto& r) { return r.axis == key.first && r.stem == key.second; });
        const auto slope = slope_of_pair(group);
        if (!slope) continue;
        auto axis = std::find_if(axes.begin(), axes.end(), [&](const auto& a) { return a.axis == key.first; });
        if (axis == axes.end()) axis = axes.insert(axes.end(), {key.first, {}});
        axis->slopes.push_back(*slope);
    }
    return axes;
}

}  // namespace

std::vector<CosineError> evaluate_cosine(const document::Document& document) {
    std::vector<CosineError> errors;
    for (const AxisSlopes& axis : slopes_by_axis(offset_readings(document))) {
        CosineError error;
        error.axis = axis.axis;
        double squares = 0, open = 0;
        error.resolved = false;
        for (const Slope& slope : axis.slopes) {
            squares += slope.value * slope.value;
            open += slope.open * slope.open;
            error.length_mm = std::max(error.length_mm, slope.distance_mm);
            error.checks.insert(error.checks.end(), {slope.first, slope.last});
            error.resolved = error.resolved || std::abs(slope.value) > slope.open;
        }
        if (const auto metres = axis_length_m(document, axis.axis)) error.length_mm = *metres * 1000;
        error.angle_rad = std::atan(std::sqrt(squares));
        error.um = cosine_error_um(error.length_mm, error.angle_rad);
        error.um_per_m = cosine_error_um(1000, error.angle_rad);
        error.least_um = cosine_error_um(error.length_mm, std::sqrt(open));
        errors.push_back(std::move(error));
    }
    return errors;
}

}  // namespace wayfolio::evaluate
