#include "gather/mapping/reading.hpp"

#include "document/error_symbol.hpp"
#include "input/digest.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::gather {
namespace {

constexpr std::string_view format_name = "wayfolio-mapping";

/// Keys of a document's series that a mapping may state; what stands in them is for the document's reader to judge.
constexpr std::array<std::string_view, 8> carried_keys{"instrument",     "measurement_line", "tolerances", "expansion_correction",
                                                       "air_correction", "dead_path_mm",     "warm_up",    "remarks"};

void check_head(ObjectReader& reader, input::Faults& faults) {
    reader.text("$schema");  // for editors
    const Value* const format = reader.require("format", "\"wayfolio-mapping\"");
    if (format != nullptr && !(format->is(JsonKind::String) && format->text == format_name))
        faults.add_wrong(*format, "\"wayfolio-mapping\"");
    const Value* const version = reader.require("version", "1");
    if (version == nullptr || (version->is(JsonKind::Number) && version->number == 1)) return;
    const bool newer = version->is(JsonKind::Number) && version->number > 1;
    faults.add_wrong(*version, "1", newer ? "the mapping was made for a newer wayfolio" : "");
    if (newer) faults.reject_if_any();
}

std::optional<units::DeviationUnit> read_unit(ObjectReader& reader) {
    std::array<std::string_view, units::deviation_units.size()> spellings;
    std::ranges::transform(units::deviation_units, spellings.begin(), &units::DeviationUnit::spelling);
    const Value* const member = reader.require("unit", "the unit of the readings: um, mm, in, uin, urad, arcsec, deg, um/m");
    if (member == nullptr) return std::nullopt;
    const auto place = reader.place_of_word(*member, "a unit", spellings);
    return place ? std::optional(units::deviation_units[*place]) : std::nullopt;
}

std::optional<units::PositionUnit> read_position_unit(ObjectReader& reader) {
    constexpr std::array<input::Word<units::PositionUnit>, 3> words{
        {{"mm", units::position_millimetre}, {"in", units::position_inch}, {"deg", units::position_degree}}};
    return reader.required_choice("position_unit", "a unit of positions", words);
}

void check_error(ObjectReader& reader) {
    const Value* const error = reader.require("error", "an error symbol of ISO 230-1, as EXX");
    if (error != nullptr && !(error->is(JsonKind::String) && document::error_symbol(error->text)))
        reader.faults().add_wrong(*error, "an error symbol of ISO 230-1, as EXX, EYX or EBX");
}

SeriesMapping read_series_mapping(const Value& value, MappingReading& reading) {
    constexpr std::array<input::Word<bool>, 2> signs{{{"actual-minus-target", false}, {"target-minus-actual", true}}};
    constexpr std::array<input::Word<bool>, 1> kinds{{{"steps", true}}};
    ObjectReader reader(value, reading.faults, "a series");
    SeriesMapping series;
    series.place = reading.place_of(value);
    series.id = reader.required_text("id", "an id, which no other series has");
    const auto same = [&](const SeriesMapping& other) { return other.id == series.id; };
    if (!series.id.empty() && std::ranges::any_of(reading.mapping.series, same))
        reading.faults.add_wrong(*value.member("id"), "an id that no other series has");
    check_error(reader);
    series.state = reader.text("state");
    if (const auto unit = read_unit(reader)) series.unit = *unit;
    if (const auto unit = read_position_unit(reader)) series.position_unit = *unit;
    series.target_minus_actual = reader.required_choice("sign", "a sign", signs).value_or(false);
    series.steps = reader.choice("kind", "a kind of series", kinds).value_or(false);
    reader.number("base_mm");
    for (const Value& item : reader.array("targets", "an array of positions"))
        if (reader.number_of(item, input::any_number)) series.targets.push_back(decimal_of(item.number));
    for (const std::string_view key : carried_keys) reader.find(key);
    reader.finish();
    series.members = node_of(value);
    return series;
}

}  // namespace

std::optional<std::size_t> read_series_place(ObjectReader& reader, MappingReading& reading) {
    std::vector<std::string_view> ids;
    for (const SeriesMapping& series : reading.mapping.series) ids.push_back(series.id);
    const Value* const member = reader.require("series", "the id of a series of this mapping");
    return member == nullptr ? std::nullopt : reader.place_of_word(*member, "a series of this mapping", ids);
}

Mapping read_mapping(std::string_view bytes, const std::string& file) {
    Mapping mapping;
    mapping.file = file;
    mapping.sha256 = input::sha256_hex(bytes);
    const input::Json json = input::read_json(bytes, file);
    input::Faults faults(file, json);
    // What stands open is told alone: a person fills it in, and then the rest can be judged.
    if (note_open_places(json.root, faults)) faults.reject_if_any();
    MappingReading reading{faults, mapping, json.root};
    ObjectReader reader(json.root, faults, "a JSON object");
    check_head(reader, faults);
    for (const Value& item : reader.array("facts", "an array of names of files", 100)) {
        if (!reader.expect(item, JsonKind::String, "the name of a file, seen from the mapping")) continue;
        mapping.facts.push_back({std::string(item.text), reading.place_of(item)});
    }
    for (const Value& item : reader.array("series", "an array of series", 300))
        mapping.series.push_back(read_series_mapping(item, reading));
    const Value* const exports = reader.require("exports", "an array of exports");
    for (const Value& item : reader.array("exports", "an array of exports", 1000))
        mapping.exports.push_back(read_export_mapping(item, reading));
    if (exports != nullptr && exports->is(JsonKind::Array) && exports->items.empty()) faults.add_wrong(*exports, "at least one export");
    reader.finish();
    faults.reject_if_any();
    return mapping;
}

bool matches(std::string_view pattern, std::string_view name) {
    const std::size_t star = pattern.find('*');
    if (star == std::string_view::npos) return pattern == name;
    if (!name.starts_with(pattern.substr(0, star))) return false;
    const std::string_view rest = pattern.substr(star + 1);
    for (std::size_t at = star; at <= name.size(); ++at)
        if (matches(rest, name.substr(at))) return true;
    return false;
}

}  // namespace wayfolio::gather
