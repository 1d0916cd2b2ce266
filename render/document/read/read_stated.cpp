#include "document/read/series_reading.hpp"

#include "input/json/nearest.hpp"
#include "document/parameter.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace wayfolio::document {
namespace {

/// Half a unit of the last digit of a number as written: 0.05 for "22.1", 0.5 for "22", 50 for "2.2e3".
double half_last_digit(std::string_view literal) {
    const auto exponent_at = std::min(literal.find_first_of("eE"), literal.size());
    int exponent = 0;
    if (exponent_at < literal.size()) {
        std::string_view digits = literal.substr(exponent_at + 1);
        if (digits.starts_with('+')) digits.remove_prefix(1);
        std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
    }
    const auto point = literal.substr(0, exponent_at).find('.');
    const auto decimals = point == std::string_view::npos ? 0 : static_cast<int>(exponent_at - point - 1);
    // Read as a decimal number, for 5 x 10^n is then as exact as a double can be.
    const std::string half = fmt::format("5e{}", exponent - decimals - 1);
    double result = 0;
    std::from_chars(half.data(), half.data() + half.size(), result);
    return result;
}

StatedTarget read_stated_target(const Value& value, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "a target with stated values");
    const double position = reader.required_number("position", position_rule(at.series.position_unit)).value_or(0) + 0.0;
    const auto mean = [&](std::string_view key) -> std::optional<Deviation> {
        const auto written = reader.number(key, deviation_rule(at.series.unit));
        if (!written) return std::nullopt;
        return Deviation(at.actual_minus_target(*written), at.series.unit);
    };
    const auto spread = [&](std::string_view key) -> std::optional<Deviation> {
        const auto written = reader.number(key, size);
        if (!written) return std::nullopt;
        return Deviation(*written, at.series.unit);
    };
    StatedTarget target{Position(position, at.series.position_unit), {mean("mean_positive"), mean("mean_negative")},
                        {spread("s_positive"), spread("s_negative")}};
    reader.finish();
    return target;
}

/// Every parameter but the signed ones is a range, a maximum or a spread.
StatedValue stated_value(const Value& member, double written, const SeriesReading& at) {
    const DeviationUnit unit = stated_unit(at.series, member.key);
    const double value = is_signed(member.key) ? at.actual_minus_target(written) : written;
    return {std::string(member.key), Deviation(value, unit), Deviation(half_last_digit(member.text), unit)};
}

}  // namespace

void read_stated(const Value& value, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "stated values by parameter");
    for (const std::string_view name : stated_names(at.series.error)) {
        const Value* const member = reader.find(name);
        if (member == nullptr) continue;
        const auto number = reader.number_of(*member, is_signed(name) ? signed_size : size);
        if (number) at.series.stated.push_back(stated_value(*member, *number, at));
    }
    for (const Value& item : reader.array("targets", "an array of targets with stated values")) {
        StatedTarget target = read_stated_target(item, at);
        const bool doubled =
            std::ranges::find(at.series.stated_targets, target.position, &StatedTarget::position) != at.series.stated_targets.end();
        if (doubled && item.member("position") != nullptr)
            at.reading.faults.add_wrong(*item.member("position"), "each position once");
        at.series.stated_targets.push_back(target);
    }
    const auto own = std::ranges::count_if(value.items, [](const Value& member) { return !input::is_passed_over(member.key); });
    if (reader.is_object() && own == 0) at.reading.faults.add_wrong(value, "at least one stated value");
    reader.finish();
}

std::optional<Tolerance> read_tolerance(const Value& value, SeriesReading& at) {
    ObjectReader reader(value, at.reading.faults, "an object with a limit: parameter, limit, unit, source");
    const auto names = parameter_names(at.series.error);
    const Value* const parameter = reader.require("parameter", "a parameter: " + input::listed(names));
    std::optional<Dimension> dimension;
    std::optional<std::size_t> place;
    if (parameter != nullptr) {
        place = reader.place_of_word(*parameter, "a parameter of " + at.series.error.text(), names);
        if (place) dimension = parameter_dimension(at.series.error, parameter->text);
    }
    auto tolerance = read_limit(reader, dimension);
    const auto length = reader.number("length_mm", positive_length_mm);
    const bool local = place && names[*place] == "local";
    if (local && value.member("length_mm") == nullptr)
        at.reading.faults.add_missing(value, "length_mm", "the length that local straightness is asked over");
    if (place && !local && value.member("length_mm") != nullptr)
        at.reading.faults.add_key(*value.member("length_mm"), "a length only beside \"parameter\": \"local\"");
    reader.finish();
    if (!tolerance || !place) return std::nullopt;
    tolerance->parameter = names[*place];
    tolerance->length_mm = length;
    return tolerance;
}

}  // namespace wayfolio::document
