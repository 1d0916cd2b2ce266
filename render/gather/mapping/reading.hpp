#pragma once
#include "gather/mapping/mapping.hpp"
#include "input/json/nearest.hpp"
#include "input/json/object_reader.hpp"

#include <array>

/// The parts of read_mapping(). Private to this box.
namespace wayfolio::gather {

using input::JsonKind;
using input::ObjectReader;
using input::Value;

struct MappingReading {
    input::Faults& faults;
    Mapping& mapping;
    const Value& root;

    [[nodiscard]] input::Place place_of(const Value& value) const { return {value.line, value.column, input::pointer_of(root, value)}; }
};

/// What an open place is written as.
inline constexpr std::string_view open_place = "?";

/// Notes every open place under `value`. @returns whether there is one
bool note_open_places(const Value& value, input::Faults& faults);

ExportMapping read_export_mapping(const Value& value, MappingReading& reading);

/// What a value that is one word of a closed set means; nothing and a fault for any other.
template <class T, std::size_t N>
std::optional<T> meaning_of(const Value& value, input::Faults& faults, const std::array<input::Word<T>, N>& words) {
    std::array<std::string_view, N> spellings;
    for (std::size_t place = 0; place < N; ++place) {
        spellings[place] = words[place].text;
        if (value.is(JsonKind::String) && value.text == words[place].text) return words[place].meaning;
    }
    faults.add_wrong(value, "one of " + input::listed(spellings),
                     value.is(JsonKind::String) ? input::nearest_hint(value.text, spellings) : "");
    return std::nullopt;
}

/// The directions of approach by their words.
inline constexpr std::array<input::Word<Approach>, 2> directions{
    {{word(Approach::Positive), Approach::Positive}, {word(Approach::Negative), Approach::Negative}}};

// Sources: each is a value of one key of an export.
Column read_column(const Value& value, input::Faults& faults);
ApproachSource read_approach_source(const Value& value, MappingReading& reading);
RunSource read_run_source(const Value& value, MappingReading& reading);
TimeSource read_time_source(const Value& value, MappingReading& reading);
MarkSource read_mark_source(const Value& value, MappingReading& reading);
PositionSource read_position_source(const Value& value, MappingReading& reading);
Dialect read_dialect(ObjectReader& reader);

/// The place in Mapping::series that the key "series" names; nothing and a fault where there is none.
std::optional<std::size_t> read_series_place(ObjectReader& reader, MappingReading& reading);
std::optional<Approach> read_direction(ObjectReader& reader, std::string_view key);

}  // namespace wayfolio::gather
