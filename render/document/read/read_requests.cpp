#include "document/read/reading.hpp"

#include <array>
#include <fmt/format.h>

namespace wayfolio::document {
namespace {

constexpr std::array<Word<TableKind>, 4> tables{{{"bidirectional", TableKind::Bidirectional},
                                                 {"positive", TableKind::Positive},
                                                 {"negative", TableKind::Negative},
                                                 {"both", TableKind::Both}}};

/// The two texts of a pair; a fault unless there are exactly two.
std::span<const Value> read_pair(ObjectReader& reader, std::string_view key, std::string_view expected) {
    const Value* const member = reader.require(key, expected);
    if (member == nullptr || !reader.expect(*member, JsonKind::Array, expected)) return {};
    const bool texts = member->items.size() == 2 && member->items[0].is(JsonKind::String) && member->items[1].is(JsonKind::String);
    if (texts) return member->items;
    reader.faults().add_wrong(*member, std::string(expected));
    return {};
}

void read_square(const Value& value, SquarenessRequest& request, Reading& reading) {
    ObjectReader reader(value, reading.faults,
                        "an object with the square: error_urad, expanded_uncertainty_urad, coverage_factor, serial, certificate");
    request.square_error_urad = reader.number("error_urad", signed_size);
    request.square_expanded_urad = reader.number("expanded_uncertainty_urad", size);
    request.square_coverage_factor = reader.number("coverage_factor", coverage_factor);
    request.square_serial = reader.text("serial");
    request.square_certificate = reader.text("certificate");
    reader.finish();
}

/// Squareness is made of the slope of each axis in the direction of the other one.
void check_slope_series(const Value& item, std::string_view axis, std::string_view other, const Reading& reading) {
    const Series* const series = series_of(item, reading);
    if (series == nullptr || axis.empty() || other.empty()) return;
    const std::size_t secondary = std::string_view("UVW").find(other[0]);
    const char direction = secondary == std::string_view::npos ? other[0] : "XYZ"[secondary];
    const ErrorSymbol wanted{direction, std::string(axis)};
    if (series->error == wanted) return;
    reading.faults.add(item, fmt::format("{}, a series of {}", describe(item), series->error.text()), "a series of " + wanted.text());
}

}  // namespace

DriftRecord read_drift(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a drift record");
    DriftRecord record;
    reader.require("axis", "the name of the axis at rest");
    record.axis = read_axis_name(reader, "axis", reading);
    if (const auto symbol = read_symbol(reader, "quantity", reading)) {
        record.quantity = symbol->text();
        const Value& written = *value.member("quantity");
        if (symbol->kind() == ErrorKind::Angle || (symbol->axis_is_rotary() && symbol->kind() == ErrorKind::Positioning))
            reading.faults.add_wrong(written, "the symbol of a length, as EXX");
        if (!record.axis.empty() && symbol->axis != record.axis) reading.faults.add_wrong(written, "a symbol of axis " + record.axis);
    }
    record.at_mm = reader.number("at_mm", position_mm).value_or(0) + 0.0;
    reader.require("samples", "an array of times and readings");
    for (const Value& item : reader.array("samples", "an array of times and readings", 100'000)) {
        ObjectReader sample(item, reading.faults, "a time and a reading");
        sample.require("time", "the time of the reading");
        std::string time = read_date(sample, "time");
        const auto reading_um = sample.required_number("um", deviation_um);
        sample.finish();
        record.samples_um.emplace_back(std::move(time), reading_um.value_or(0) + 0.0);
    }
    reader.finish();
    return record;
}

SquarenessRequest read_squareness(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a squareness");
    SquarenessRequest request;
    const auto axes = read_pair(reader, "axes", "the names of two axes");
    for (std::size_t place = 0; place < axes.size(); ++place) {
        check_axis_name(axes[place], reading);
        request.axes[place] = axes[place].text;
    }
    if (!axes.empty() && request.axes[0] == request.axes[1]) reading.faults.add_wrong(axes[1], "two different axes");
    const auto series = read_pair(reader, "series", "the ids of two straightness series");
    for (std::size_t place = 0; place < series.size(); ++place) {
        check_slope_series(series[place], request.axes[place], request.axes[1 - place], reading);
        request.series[place] = series[place].text;
    }
    for (std::size_t place = 0; place < reading.document.squareness.size(); ++place)
        if (series.size() == 2 && reading.document.squareness[place].series == request.series)
            reading.faults.add_wrong(*value.member("series"), "each pair of series once",
                                     fmt::format("squareness {} counted from 0 is of the same", place));
    if (const Value* const square = reader.find("square")) read_square(*square, request, reading);
    if (const Value* const tolerance = reader.find("tolerance")) {
        ObjectReader part(*tolerance, reading.faults, "an object with the limit: limit, unit, source");
        request.tolerance = read_limit(part, Dimension::Angle);
        if (request.tolerance) request.tolerance->parameter = "squareness";
        part.finish();
    }
    reader.finish();
    return request;
}

CompensationRequest read_compensation(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a compensation");
    CompensationRequest request;
    reader.require("axis", "the name of an axis");
    request.axis = read_axis_name(reader, "axis", reading);
    const Series* const series = read_series_reference(reader, "series", reading);
    if (series != nullptr) {
        request.series = series->id;
        const bool fits = series->error.kind() == ErrorKind::Positioning && series->error.axis == request.axis;
        if (!fits && !request.axis.empty())
            reading.faults.add(*value.member("series"), fmt::format("\"{}\", a series of {}", series->id, series->error.text()),
                               "a positioning series of axis " + request.axis);
    }
    const bool rotary = request.axis == "A" || request.axis == "B" || request.axis == "C";
    request.spacing = (rotary ? reader.required_number("point_interval_deg", spacing_deg)
                              : reader.required_number("point_interval_mm", positive_length_mm)).value_or(1);
    request.reference = (rotary ? reader.number("zero_at_deg", position_rule(units::position_degree))
                                : reader.number("zero_at_mm", position_mm)).value_or(0) + 0.0;
    request.increment = reader.number(rotary ? "rounded_to_arcsec" : "rounded_to_um", increment).value_or(0);
    request.table = reader.choice("table", "a kind of table", tables).value_or(TableKind::Bidirectional);
    reader.finish();
    return request;
}

}  // namespace wayfolio::document
