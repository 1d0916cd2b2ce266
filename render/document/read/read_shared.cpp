#include "document/read/reading.hpp"

#include "input/digest.hpp"
#include "input/json/nearest.hpp"
#include "input/read_file.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <exception>
#include <future>

namespace wayfolio::document {
namespace {

std::vector<std::string_view> spellings_of(std::optional<Dimension> dimension) {
    std::vector<std::string_view> result;
    for (const DeviationUnit& unit : units::deviation_units)
        if (!dimension || unit.dimension == *dimension) result.push_back(unit.spelling);
    return result;
}

std::string_view unit_words(std::optional<Dimension> dimension) {
    if (!dimension) return "a unit";
    return *dimension == Dimension::Length ? "a unit of length" : "a unit of angle";
}

}  // namespace

std::string read_date(ObjectReader& reader, std::string_view key) {
    const Value* const member = reader.find(key);
    constexpr std::string_view expected = "a date of ISO 8601 that exists, as 2026-05-11 or 2026-05-11T08:10+02:00";
    if (member == nullptr || !reader.expect(*member, JsonKind::String, expected)) return {};
    if (input::iso_date(member->text)) return std::string(member->text);
    reader.faults().add_wrong(*member, std::string(expected));
    return {};
}

void check_order(ObjectReader& reader, std::string_view first, std::string_view second) {
    const Value *const earlier = reader.value().member(first), *const later = reader.value().member(second);
    if (earlier == nullptr || later == nullptr || !earlier->is(JsonKind::String) || !later->is(JsonKind::String)) return;
    const auto begin = input::iso_date(earlier->text), end = input::iso_date(later->text);
    if (begin && end && input::is_before(*end, *begin))
        reader.faults().add_wrong(*later, fmt::format("a time not before \"{}\", {}", first, describe(*earlier)));
}

void check_label(const Value* value, input::Faults& faults) {
    constexpr std::ptrdiff_t longest = 100;
    if (value == nullptr || !value->is(JsonKind::String)) return;
    const auto characters = std::ranges::count_if(value->text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    if (characters <= longest) return;
    faults.add(*value, fmt::format("a name of {} characters", characters), fmt::format("at most {} characters", longest),
               "it stands as a label on pages; say more in the remarks");
}

std::optional<ErrorSymbol> written_symbol(const Value& value, input::Faults& faults) {
    constexpr std::string_view expected = "an error symbol: E, direction (X Y Z A B C), axis (X Y Z U V W A B C), as EXX or EBX";
    const auto symbol = value.is(JsonKind::String) ? error_symbol(value.text) : std::nullopt;
    if (!symbol) faults.add_wrong(value, std::string(expected));
    return symbol;
}

std::optional<ErrorSymbol> symbol_of(const Value& value, const Reading& reading) {
    auto symbol = written_symbol(value, reading.faults);
    if (!symbol) return std::nullopt;
    const bool named = reading.document.machine && !reading.document.machine->axes.empty();
    if (named && find_axis(reading.document, symbol->axis) == nullptr)
        reading.faults.add_wrong(value, "a symbol whose axis (its last letter) is in machine.axes");
    return symbol;
}

std::optional<ErrorSymbol> read_symbol(ObjectReader& reader, std::string_view key, const Reading& reading) {
    const Value* const member = reader.require(key, "an error symbol, as EXX");
    return member == nullptr ? std::nullopt : symbol_of(*member, reading);
}

void check_axis_name(const Value& value, const Reading& reading) {
    if (const auto fault = input::text_fault(value.text)) return reading.faults.add(value, fault->found, fault->expected, fault->hint);
    if (!reading.document.machine || reading.document.machine->axes.empty()) return;
    if (find_axis(reading.document, value.text) != nullptr) return;
    std::vector<std::string_view> names;
    for (const Axis& axis : reading.document.machine->axes) names.push_back(axis.name);
    reading.faults.add_wrong(value, "an axis of machine.axes: " + input::listed(names), input::nearest_hint(value.text, names));
}

std::string read_axis_name(ObjectReader& reader, std::string_view key, const Reading& reading) {
    const Value* const member = reader.find(key);
    if (member == nullptr || !reader.expect(*member, JsonKind::String, "the name of an axis")) return {};
    check_axis_name(*member, reading);
    return std::string(member->text);
}

std::optional<DeviationUnit> read_deviation_unit(ObjectReader& reader, std::string_view key, std::optional<Dimension> dimension) {
    const auto spellings = spellings_of(dimension);
    const Value* const member = reader.require(key, fmt::format("{}: {}", unit_words(dimension), input::listed(spellings)));
    if (member == nullptr) return std::nullopt;
    const auto place = reader.place_of_word(*member, unit_words(dimension), spellings);
    return place ? units::deviation_unit(spellings[*place]) : std::nullopt;
}

std::optional<DeviationUnit> read_contributor_unit(ObjectReader& reader, std::string_view key, Dimension dimension) {
    const Value* const member = reader.value().member(key);
    const bool proportional = member != nullptr && member->is(JsonKind::String) && member->text == "um/m";
    return read_deviation_unit(reader, key, proportional ? std::nullopt : std::optional(dimension));
}

std::optional<Tolerance> read_limit(ObjectReader& reader, std::optional<Dimension> dimension) {
    const auto limit = reader.required_number("limit", size);
    const auto unit = read_deviation_unit(reader, "unit", dimension);
    std::string source = reader.text("source");
    if (!limit || !unit) return std::nullopt;
    return Tolerance{{}, std::move(source), Deviation(*limit, *unit), *unit, {}};
}

namespace {

bool names_side_file(const Value& mention, Reading& reading) {
    if (mention.is(JsonKind::String) && input::is_plain_file_name(mention.text)) return true;
    reading.faults.add_wrong(mention, "the name of a file beside the document, without a folder");
    return false;
}

/// What is larger stays where it lies. By choice: 100 000 samples take a quarter to a half of it.
constexpr std::size_t largest_held = std::size_t{8} << 20;

using Look = std::function<void(const input::ByteSource&)>;

std::string digest_of(const input::ByteSource& source) {
    input::Digest digest(input::DigestKind::Sha256);
    input::read_in_pieces(source, [&](std::string_view piece) { digest.add(piece); });
    return digest.hex();
}

std::nullopt_t cannot_be_read(const Value& mention, const input::InputMissing& missing, Reading& reading) {
    reading.faults.add_wrong(mention, "a file that can be read beside the document", missing.what());
    return std::nullopt;
}

/// Bytes that the document holds.
FoundSideFile look_at_held(std::string bytes, const Look& look) {
    std::string sha256 = input::sha256_hex(bytes);
    FoundSideFile held{input::source_of(std::move(bytes)), std::move(sha256)};
    look(held.source);
    return held;
}

std::optional<FoundSideFile> look_at_large(const Value& mention, FoundSideFile found, Reading& reading, const Look& look) {
    // Where no other thread is to be had, it is made when it is asked for.
    auto digest = std::async(std::launch::async | std::launch::deferred, [&found] { return digest_of(found.source); });
    std::exception_ptr failure;
    try {
        look(found.source);
    } catch (...) {
        failure = std::current_exception();  // told behind what the digest has to say of the file
    }
    try {
        found.sha256 = digest.get();
    } catch (const input::InputMissing& missing) {
        return cannot_be_read(mention, missing, reading);
    }
    if (failure) std::rethrow_exception(failure);
    reading.document.large_side_files.push_back({std::string(mention.text), found.sha256, found.source});
    return found;
}

}  // namespace

std::optional<std::string> read_side_file(const Value& mention, Reading& reading) {
    if (!names_side_file(mention, reading)) return std::nullopt;
    const std::string name(mention.text);
    const auto kept = std::ranges::find(reading.document.side_files, name, &SideFile::name);
    if (kept != reading.document.side_files.end()) return kept->bytes;
    try {
        std::string bytes = reading.read_side_file(name);
        reading.document.side_files.push_back({name, bytes});
        return bytes;
    } catch (const input::InputMissing& missing) {
        return cannot_be_read(mention, missing, reading);
    }
}

std::optional<FoundSideFile> side_file_source(const Value& mention, Reading& reading, const Look& look) {
    if (!names_side_file(mention, reading)) return std::nullopt;
    const std::string name(mention.text);
    const auto kept = std::ranges::find(reading.document.side_files, name, &SideFile::name);
    if (kept != reading.document.side_files.end()) return look_at_held(kept->bytes, look);
    const auto large = std::ranges::find(reading.document.large_side_files, name, &LargeSideFile::name);
    if (large != reading.document.large_side_files.end()) {
        look(large->source);
        return FoundSideFile{large->source, large->sha256};
    }
    input::ByteSource source;
    std::string bytes;
    try {
        source = reading.read_side_file.source(name);
        if (source.size <= largest_held) {
            bytes.resize(source.size);
            bytes.resize(source.read_at(0, bytes));
        }
    } catch (const input::InputMissing& missing) {
        return cannot_be_read(mention, missing, reading);
    }
    if (source.size > largest_held) return look_at_large(mention, {std::move(source), {}}, reading, look);
    reading.document.side_files.push_back({name, bytes});
    return look_at_held(std::move(bytes), look);
}

const Series* series_of(const Value& value, const Reading& reading) {
    std::vector<std::string_view> ids;
    for (const Series& series : reading.document.series) ids.push_back(series.id);
    const Series* const found = value.is(JsonKind::String) ? find_series(reading.document, value.text) : nullptr;
    if (found != nullptr) return found;
    const bool text = value.is(JsonKind::String);
    const bool waits = text && std::ranges::find(reading.document.planned, value.text, &Series::id) != reading.document.planned.end();
    reading.faults.add_wrong(value, "the id of a series with readings: " + input::listed(ids),
                             waits  ? "it is planned and has no readings yet: take out what needs it until it has some"
                             : text ? input::nearest_hint(value.text, ids)
                                    : "");
    return nullptr;
}

const Series* read_series_reference(ObjectReader& reader, std::string_view key, const Reading& reading) {
    const Value* const member = reader.require(key, "the id of a series");
    return member == nullptr ? nullptr : series_of(*member, reading);
}

}  // namespace wayfolio::document
