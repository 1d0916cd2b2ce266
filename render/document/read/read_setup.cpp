#include "document/read/reading.hpp"

#include <array>

namespace wayfolio::document {
namespace {

constexpr std::array<Word<ReadOn>, 2> read_on_words{{{"outgoing-beam", ReadOn::OutgoingBeam}, {"returning-beam", ReadOn::ReturningBeam}}};

using NamedNumbers = std::vector<std::pair<std::string, double>>;

/// An object whose keys are the user's own names (sensors, axes) and whose values are numbers.
NamedNumbers read_named_numbers(const Value& value, const input::NumberRule& rule, std::string_view expected, Reading& reading) {
    NamedNumbers result;
    ObjectReader reader(value, reading.faults, expected);
    if (!reader.is_object()) return result;
    for (const Value& member : value.items) {
        if (member.key == "internal") input::check_internal(member, reading.faults);
        if (input::is_passed_over(member.key)) continue;
        if (const auto fault = input::text_fault(member.key)) reading.faults.add_key(member, fault->expected, fault->hint);
        if (const auto number = reader.number_of(member, rule)) result.emplace_back(member.key, *number);
    }
    return result;
}

EnvironmentSample read_sample(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a sample of the environment");
    EnvironmentSample sample;
    sample.time = read_date(reader, "time");
    sample.air_C = reader.number("air_C", air_C);
    sample.pressure_hPa = reader.number("pressure_hPa", pressure_hPa);
    sample.humidity_percent = reader.number("humidity_percent", percent);
    sample.co2_ppm = reader.number("co2_ppm", co2_ppm);
    if (const Value* const machine = reader.find("machine_C"))
        sample.machine_C = read_named_numbers(*machine, temperature_C, "temperatures by the names of their sensors", reading);
    reader.finish();
    return sample;
}

SetupCheck read_check(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a set-up check");
    SetupCheck check;
    check.name = reader.required_text("name", "what is checked");
    check.axis = read_axis_name(reader, "axis", reading);
    check.reading = reader.number("reading", signed_size);
    check.at_most = reader.number("at_most", signed_size);
    check.at_least = reader.number("at_least", signed_size);
    check.unit = reader.text("unit");
    check.position = reader.number("position", position_mm);
    check.read_on = reader.choice("read_on", "where the offset was read", read_on_words).value_or(ReadOn::OutgoingBeam);
    check.done = reader.flag("done");
    check.basis = reader.text("basis");
    reader.finish();
    return check;
}

std::optional<std::array<double, 3>> read_offset(const Value& value, ObjectReader& reader) {
    constexpr std::string_view expected = "three numbers in mm: X, Y, Z from the measurement line to the functional point";
    if (!reader.expect(value, JsonKind::Array, expected)) return std::nullopt;
    if (value.items.size() != 3) {
        reader.faults().add_wrong(value, std::string(expected));
        return std::nullopt;
    }
    std::array<double, 3> offset{};
    for (std::size_t place = 0; place < offset.size(); ++place)
        offset[place] = reader.number_of(value.items[place], position_mm).value_or(0) + 0.0;
    return offset;
}

MeasurementLine read_line(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a measurement line");
    MeasurementLine line;
    reader.require("axis", "the name of the axis measured along");
    line.axis = read_axis_name(reader, "axis", reading);
    if (const Value* const at = reader.find("at"))
        line.at_mm = read_named_numbers(*at, position_mm, "positions in mm by the names of the axes", reading);
    if (const Value* const offset = reader.find("offset_to_tool_point_mm")) line.offset_to_tool_point_mm = read_offset(*offset, reader);
    reader.finish();
    return line;
}

}  // namespace

void read_environment(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "the environment");
    Environment environment;
    environment.reference_temperature_C = reader.number("reference_temperature_C", temperature_C);
    for (const Value& sample : reader.array("samples", "an array of samples", CountLimits::samples))
        environment.samples.push_back(read_sample(sample, reading));
    if (const Value* const origin = reader.find("origin")) environment.origin = read_origin(*origin, reading);
    reader.finish();
    reading.document.environment = std::move(environment);
}

void read_setup(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "the set-up");
    Setup setup;
    for (const Value& check : reader.array("checks", "an array of checks", CountLimits::checks))
        setup.checks.push_back(read_check(check, reading));
    for (const Value& line : reader.array("measurement_lines", "an array of measurement lines", CountLimits::measurement_lines))
        setup.lines.push_back(read_line(line, reading));
    setup.feed_mm_per_min = reader.number("feed_mm_per_min", feed);
    setup.feed_deg_per_min = reader.number("feed_deg_per_min", feed);
    setup.dwell_s = reader.number("dwell_s", seconds);
    setup.warm_up = reader.text("warm_up");
    reader.finish();
    reading.document.setup = std::move(setup);
}

}  // namespace wayfolio::document
