#include "document/read/reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace wayfolio::document {
namespace {

constexpr std::array<Word<AxisKind>, 2> axis_kinds{{{"linear", AxisKind::Linear}, {"rotary", AxisKind::Rotary}}};
constexpr std::array<Word<Moves>, 2> moves_words{{{"tool", Moves::Tool}, {"workpiece", Moves::Workpiece}}};
constexpr std::array<Word<std::string_view>, 3> verticals{{{"X", "X"}, {"Y", "Y"}, {"Z", "Z"}}};

/// Ciddor's equation holds from 300 nm to 1 690 nm [Applied Optics 35 (1996) 1566, from memory]; NIST's table goes on to 1 700.
constexpr input::NumberRule vacuum_wavelength_nm{"a vacuum wavelength in nm, from 300 to 1700, as 632.9912",
                                                 [](double n) { return n >= 300 && n <= 1700; }};

/// The kind that an axis name of ISO 841, a letter or a letter with digits (Z2), has by itself: X Y Z U V W are linear, A B C rotary.
std::optional<AxisKind> kind_by_name(std::string_view name) {
    if (name.empty() || name.find_first_not_of("0123456789", 1) != std::string_view::npos) return std::nullopt;
    if (std::string_view("XYZUVW").find(name[0]) != std::string_view::npos) return AxisKind::Linear;
    if (std::string_view("ABC").find(name[0]) != std::string_view::npos) return AxisKind::Rotary;
    return std::nullopt;
}

AxisKind read_kind(ObjectReader& reader, std::string_view name, Reading& reading) {
    const auto by_name = kind_by_name(name);
    const auto written = reader.choice("kind", "a kind of axis", axis_kinds);
    if (!written) return by_name.value_or(AxisKind::Linear);
    if (by_name && *by_name != *written)
        reading.faults.add_wrong(*reader.value().member("kind"), *by_name == AxisKind::Rotary
                                                                     ? "rotary, for A, B and C turn (ISO 841)"
                                                                     : "linear, for this letter names a linear axis (ISO 841)");
    return *written;
}

std::optional<Travel> read_travel(const Value& value, AxisKind kind, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a travel: from, to, unit");
    const auto unit = kind == AxisKind::Rotary ? reader.required_choice("unit", "a unit of rotary positions", rotary_units)
                                               : reader.required_choice("unit", "a unit of linear positions", linear_units);
    const NumberRule& rule = position_rule(unit.value_or(units::position_millimetre));
    const auto from = reader.required_number("from", rule), to = reader.required_number("to", rule);
    if (from && to && std::abs(*from - *to) < least_distance)
        reading.faults.add_wrong(*value.member("to"), "a place other than \"from\"");
    reader.finish();
    if (!from || !to || !unit) return std::nullopt;
    return Travel{Position(*from, *unit), Position(*to, *unit), *unit};
}

std::optional<Expansion> read_expansion(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object: value (as 11.5, in um/(m K)), expanded_uncertainty, coverage_factor");
    const auto coefficient = reader.required_number("value", coefficient_um_per_m_K);
    const auto uncertainty = reader.number("expanded_uncertainty", coefficient_uncertainty);
    const auto factor = reader.number("coverage_factor", coverage_factor);
    reader.finish();
    if (!coefficient) return std::nullopt;
    return Expansion{*coefficient, uncertainty, factor};
}

Axis read_axis(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object with an axis: name, kind, travel ...");
    Axis axis;
    axis.name = reader.required_text("name", "the name of an axis, as X");
    axis.kind = read_kind(reader, axis.name, reading);
    axis.moves = reader.choice("moves", "what moves", moves_words);
    axis.sensors = reader.texts("sensors", CountLimits::sensors);
    check_label(value.member("name"), reading.faults);
    if (const Value* const sensors = value.member("sensors"))
        for (const Value& sensor : sensors->items) check_label(&sensor, reading.faults);
    if (const Value* const travel = reader.find("travel")) axis.travel = read_travel(*travel, axis.kind, reading);
    if (const Value* const expansion = reader.find("expansion_um_per_m_K")) axis.expansion = read_expansion(*expansion, reading);
    reader.finish();
    return axis;
}

std::optional<StatedCapability> read_stated_capability(ObjectReader& reader, std::string_view key, std::string_view constant,
                                                       std::string_view per_metre) {
    const Value* const member = reader.find(key);
    if (member == nullptr) return std::nullopt;
    ObjectReader part(*member, reader.faults(), "an expanded uncertainty: constant and part per metre");
    const auto fixed = part.number(constant, size);
    const auto growing = part.number(per_metre, size);
    if (!fixed && !growing && part.is_object() && member->member(constant) == nullptr && member->member(per_metre) == nullptr)
        reader.faults().add_wrong(*member, fmt::format("\"{}\", \"{}\" or both", constant, per_metre));
    part.finish();
    return StatedCapability{fixed.value_or(0), growing.value_or(0)};
}

}  // namespace

void read_machine(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a machine");
    Machine machine;
    if (const auto vertical = reader.choice("vertical", "the vertical axis", verticals)) machine.vertical = *vertical;
    machine.kind = reader.text("kind");
    machine.maker = reader.text("maker");
    machine.model = reader.text("model");
    machine.serial = reader.text("serial");
    machine.controller = reader.text("controller");
    machine.condition = reader.text("condition");
    machine.least_increment_um = reader.number("least_increment_um", increment);
    for (const Value& item : reader.array("axes", "an array of axes", CountLimits::axes)) {
        Axis axis = read_axis(item, reading);
        if (!axis.name.empty() && std::ranges::find(machine.axes, axis.name, &Axis::name) != machine.axes.end())
            reading.faults.add_wrong(*item.member("name"), "a name that no other axis has");
        machine.axes.push_back(std::move(axis));
    }
    reader.finish();
    reading.document.machine = std::move(machine);
}

Instrument read_instrument(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an instrument");
    Instrument instrument;
    instrument.id = reader.required_text("id", "an id, by which series name the instrument");
    check_label(value.member("id"), reading.faults);
    if (!instrument.id.empty() && find_instrument(reading.document, instrument.id) != nullptr)
        reading.faults.add_wrong(*value.member("id"), "an id that no other instrument has");
    instrument.kind = reader.text("kind");
    instrument.maker = reader.text("maker");
    instrument.model = reader.text("model");
    instrument.serial = reader.text("serial");
    instrument.certificate = reader.text("certificate");
    instrument.certified_by = reader.text("certified_by");
    instrument.traceable_to = reader.text("traceable_to");
    instrument.vacuum_wavelength_nm = reader.number("vacuum_wavelength_nm", vacuum_wavelength_nm);
    instrument.calibrated = read_date(reader, "calibrated");
    instrument.due = read_date(reader, "due");
    check_order(reader, "calibrated", "due");
    if (const Value* const uncertainty = reader.find("expanded_uncertainty")) {
        ObjectReader part(*uncertainty, reading.faults, "expanded uncertainties: positioning, straightness, angle");
        instrument.positioning = read_stated_capability(part, "positioning", "um", "um_per_m");
        instrument.straightness = read_stated_capability(part, "straightness", "um", "um_per_m");
        instrument.angle = read_stated_capability(part, "angle", "urad", "urad_per_m");
        part.finish();
    }
    instrument.coverage_factor = reader.number("coverage_factor", coverage_factor);
    reader.finish();
    return instrument;
}

}  // namespace wayfolio::document
