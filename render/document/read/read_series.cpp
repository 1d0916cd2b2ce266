#include "document/read/series_reading.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <numeric>
#include <set>

namespace wayfolio::document {
namespace {

enum class Sign { ActualMinusTarget, TargetMinusActual };
constexpr std::array<Word<Sign>, 2> signs{
    {{"actual-minus-target", Sign::ActualMinusTarget}, {"target-minus-actual", Sign::TargetMinusActual}}};
constexpr std::array<Word<bool>, 1> kinds{{{"steps", true}}};
constexpr std::array<Word<DeviationUnit>, 3> rotary_deviation_units{
    {{"urad", units::microradian}, {"arcsec", units::arcsecond}, {"deg", units::degree}}};

void read_id(ObjectReader& reader, Series& series, const Reading& reading) {
    series.id = reader.required_text("id", "an id, which no other series has");
    const auto same = [&](const Series& other) { return other.id == series.id; };
    if (!series.id.empty() && (find_series(reading.document, series.id) != nullptr || std::ranges::any_of(reading.document.planned, same)))
        reading.faults.add_wrong(*reader.value().member("id"), "an id that no other series has");
}

/// A column or a page for each: no machine is measured in more states.
void read_state(ObjectReader& reader, Series& series, const Reading& reading) {
    series.state = reader.text("state");
    std::set<std::string_view> states;
    for (const Series& other : reading.document.series) states.insert(other.state);
    if (states.size() < CountLimits::states || states.contains(series.state)) return;
    reading.faults.add_wrong(*reader.value().member("state"),
                             fmt::format("one of at most {} states of the machine in one document", CountLimits::states),
                             "a state is that of the machine, as as-found or as-left, not of the series");
}

void read_error(ObjectReader& reader, SeriesReading& at) {
    const auto symbol = read_symbol(reader, "error", at.reading);
    if (symbol) at.series.error = *symbol;
    const Value* const kind = reader.find("kind");
    const bool steps = kind != nullptr && reader.word_of(*kind, "a kind of series", kinds).has_value();
    const auto base = reader.number("base_mm", positive_length_mm);
    if (steps && reader.value().member("base_mm") == nullptr)
        at.reading.faults.add_missing(reader.value(), "base_mm", "the base length of the steps in mm");
    if (kind == nullptr && reader.value().member("base_mm") != nullptr)
        at.reading.faults.add_key(*reader.value().member("base_mm"), "a base only in a series of \"kind\": \"steps\"");
    const bool straight = at.series.error.kind() == ErrorKind::Straightness && !at.series.error.axis_is_rotary();
    if (steps && symbol && !straight) at.reading.faults.add_wrong(*kind, "steps only for the straightness of a linear axis, as EYX");
    if (steps) at.series.steps_base_mm = base.value_or(1);
}

/// The unit follows the symbol: straightness and linear positioning are lengths; angles, rotary positioning and angle steps are angles.
void read_units(ObjectReader& reader, SeriesReading& at) {
    Series& series = at.series;
    const bool rotary = series.error.axis_is_rotary();
    const bool length = series.error.kind() == ErrorKind::Straightness || (series.error.kind() == ErrorKind::Positioning && !rotary);
    std::optional<DeviationUnit> unit;
    if (rotary && !length) unit = reader.required_choice("unit", "a unit of angle on a rotary axis", rotary_deviation_units);
    else unit = read_deviation_unit(reader, "unit", length && !at.is_steps() ? Dimension::Length : Dimension::Angle);
    series.unit = unit.value_or(length && !at.is_steps() ? DeviationUnit(units::micrometre) : DeviationUnit(units::microradian));
    const auto position_unit = rotary ? reader.required_choice("position_unit", "a unit of rotary positions", rotary_units)
                                      : reader.required_choice("position_unit", "a unit of linear positions", linear_units);
    series.position_unit = position_unit.value_or(rotary ? units::position_degree : units::position_millimetre);
    const auto sign = reader.choice("sign", "a sign", signs);
    series.sign_stated = sign.has_value();
    series.target_minus_actual = sign == Sign::TargetMinusActual;
}

void read_references(ObjectReader& reader, Series& series, Reading& reading) {
    series.instrument = reader.text("instrument");
    const Value* const instrument = reader.value().member("instrument");
    if (instrument != nullptr && instrument->is(JsonKind::String) && find_instrument(reading.document, series.instrument) == nullptr)
        reading.faults.add_wrong(*instrument, "the id of one of the instruments");
    const auto line = reader.whole("measurement_line", 0, 1'000'000);
    if (!line) return;
    const auto* const setup = reading.document.setup ? &*reading.document.setup : nullptr;
    const std::size_t count = setup == nullptr ? 0 : setup->lines.size();
    const Value& written = *reader.value().member("measurement_line");
    if (*line >= count) {
        reading.faults.add_wrong(written, fmt::format("a place in setup.measurement_lines, which has {}, counted from 0", count));
    } else {
        const std::string& axis = setup->lines[*line].axis;
        if (!axis.empty() && axis != series.error.axis)
            reading.faults.add(written, fmt::format("{}, a line along {}", describe(written), axis), "a line along " + series.error.axis);
        series.measurement_line = *line;
    }
}

void read_targets(ObjectReader& reader, SeriesReading& at) {
    const Value* const member = reader.value().member("targets");
    const auto items = reader.array("targets", "an array of positions", CountLimits::targets);
    if (member == nullptr || !member->is(JsonKind::Array)) return;
    at.targets_known = !items.empty();
    if (member->items.empty()) at.reading.faults.add_wrong(*member, "at least one target");
    const NumberRule& rule = position_rule(at.series.position_unit);
    for (const Value& item : items) {
        const auto position = reader.number_of(item, rule);
        at.targets_known = at.targets_known && position.has_value();
        const double written = position.value_or(0) + 0.0;  // + 0.0: no negative zero
        at.series.targets.push_back({Position(written, at.series.position_unit), written});
    }
    if (!at.targets_known) return;
    // Sorted places instead of a search for each target: a document may have thousands.
    std::vector<std::size_t> order(items.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t place) { return at.series.targets[place].written; });
    for (std::size_t i = 1; i < order.size(); ++i) {
        const double apart = at.series.targets[order[i]].written - at.series.targets[order[i - 1]].written;
        if (apart == 0)
            at.reading.faults.add_wrong(items[order[i]], "each target once",
                                        fmt::format("target {} counted from 0 is the same", order[i - 1]));
        else if (apart < least_distance)
            at.reading.faults.add_wrong(items[order[i]],
                                        fmt::format("targets at least {:f} {} apart", least_distance, at.series.position_unit.spelling),
                                        fmt::format("target {} counted from 0 is nearly the same", order[i - 1]));
    }
}

void read_corrections(ObjectReader& reader, Series& series, Reading& reading) {
    if (const Value* const value = reader.find("expansion_correction")) {
        ObjectReader part(*value, reading.faults, "an object: applied, coefficient_um_per_m_K");
        part.require("applied", "true or false");
        series.expansion_correction = {part.flag("applied").value_or(false), part.number("coefficient_um_per_m_K", coefficient_um_per_m_K)};
        part.finish();
    }
    if (const Value* const value = reader.find("air_correction")) {
        ObjectReader part(*value, reading.faults, "an object: applied, equation, air_C, pressure_hPa, humidity_percent");
        part.require("applied", "true or false");
        series.air_correction = {part.flag("applied").value_or(false), part.text("equation"), part.number("air_C", air_C),
                                 part.number("pressure_hPa", pressure_hPa), part.number("humidity_percent", percent)};
        part.finish();
    }
    series.dead_path_mm = reader.number("dead_path_mm", length_mm);
}

/// What a series must have: targets with runs, a trace, or stated values.
void check_content(ObjectReader& reader, const Reading& reading) {
    const Value& value = reader.value();
    if (!reader.is_object()) return;
    const bool has_runs = value.member("runs") != nullptr, planned = value.member("plan") != nullptr;
    if ((has_runs || planned) && value.member("targets") == nullptr)
        reading.faults.add_missing(value, "targets", "the target positions of the runs");
    if (!has_runs && !planned && value.member("trace") == nullptr && value.member("stated") == nullptr)
        reading.faults.add_missing(value, "runs", "targets with runs, a trace, stated values, or a plan");
}

}  // namespace

Series read_series(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "a series");
    SeriesReading at{reading, {}};
    read_id(reader, at.series, reading);
    read_error(reader, at);
    read_state(reader, at.series, reading);
    for (const char* label : {"id", "state"}) check_label(value.member(label), reading.faults);
    read_units(reader, at);
    read_references(reader, at.series, reading);
    if (const Value* const origin = reader.find("origin")) at.series.origin = read_origin(*origin, reading);
    if (const Value* const plan = reader.find("plan")) at.series.plan = read_plan(*plan, at);
    read_targets(reader, at);
    check_content(reader, reading);
    const auto runs = reader.array("runs", "an array of runs", CountLimits::runs);
    if (const Value* const member = value.member("runs"); member != nullptr && member->is(JsonKind::Array) && member->items.empty())
        reading.faults.add_wrong(*member, "at least one run");
    for (const Value& run : runs) at.series.runs.push_back(read_run(run, at));
    if (const Value* const trace = reader.find("trace")) at.series.trace = read_trace(*trace, at);
    for (const Value& item : reader.array("tolerances", "an array of limits", CountLimits::tolerances))
        if (auto tolerance = read_tolerance(item, at)) at.series.tolerances.push_back(*std::move(tolerance));
    if (const Value* const stated = reader.find("stated")) read_stated(*stated, at);
    read_corrections(reader, at.series, reading);
    at.series.warm_up = reader.text("warm_up");
    at.series.remarks = reader.texts("remarks", CountLimits::remarks);
    reader.finish();
    return std::move(at.series);
}

}  // namespace wayfolio::document
