#include "gather/mapping/reading.hpp"

#include "input/iso_date.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::gather {
namespace {

constexpr std::string_view column_words = "the head of a column, or its number from 1";

/// "column": …, or "above": …, or nothing and a fault.
std::optional<Where> read_where(ObjectReader& reader) {
    const Value *const column = reader.find("column"), *const above = reader.find("above");
    if (column != nullptr && above != nullptr) reader.faults().add_key(*above, "\"column\" or \"above\", not both");
    if (column != nullptr) return read_column(*column, reader.faults());
    if (above != nullptr) return Above{reader.required_text("above", "the text of a cell above the head")};
    if (reader.is_object())
        reader.faults().add_missing(reader.value(), "column", "\"column\", or \"above\" for a cell in the lines above the head");
    return std::nullopt;
}

std::vector<std::string> read_words(ObjectReader& reader, std::string_view key) {
    std::vector<std::string> words = reader.texts(key, 100);
    if (reader.value().member(key) == nullptr) words.emplace_back(key);
    return words;
}

char read_mark(ObjectReader& reader, std::string_view key, char otherwise) {
    constexpr std::array<input::Word<char>, 2> marks{{{".", '.'}, {",", ','}}};
    return reader.choice(key, "a decimal mark", marks).value_or(otherwise);
}

/// Not a letter of numbers or of quotes: cells could not be told apart.
char read_delimiter(ObjectReader& reader, char quote) {
    const Value* const member = reader.find("delimiter");
    if (member == nullptr) return ',';
    constexpr std::string_view expected = R"(one letter, as "," or ";", or the word "tab" or "blanks")";
    if (!member->is(JsonKind::String))
        reader.faults().add_wrong(*member, std::string(expected));
    else if (member->text == "tab")
        return '\t';
    else if (member->text == "blanks")
        return Dialect::blanks;
    else {
        const bool letter =
            member->text.size() == 1 && std::string_view("0123456789+-\"\r\n eE").find(member->text[0]) == std::string_view::npos;
        if (letter && member->text[0] > ' ' && member->text[0] != quote) return member->text[0];
        reader.faults().add_wrong(*member, std::string(expected));
    }
    return ',';
}

void check_form(const Value& value, std::string_view form, input::Faults& faults) {
    const auto has = [&](std::string_view part) { return form.find(part) != std::string_view::npos; };
    const bool day = has("YYYY") && has("MM") && has("DD");
    if (!form.empty() && !(day || (has("hh") && has("mm"))))
        faults.add_wrong(value, "a form with YYYY, MM and DD, or hh and mm, as DD.MM.YYYY hh:mm:ss");
}

}  // namespace

Column read_column(const Value& value, input::Faults& faults) {
    const bool head = value.is(JsonKind::String) && !value.text.empty();
    const bool number = value.is(JsonKind::Number) && value.number >= 1 && value.number <= 16'384 &&
                        value.number == static_cast<double>(static_cast<int>(value.number));
    if (head) return {std::string(value.text), 0};
    if (number) return {{}, static_cast<std::size_t>(value.number)};
    faults.add_wrong(value, std::string(column_words));
    return {};
}

std::optional<Approach> read_direction(ObjectReader& reader, std::string_view key) {
    return reader.choice(key, "a direction of approach", directions);
}

ApproachSource read_approach_source(const Value& value, MappingReading& reading) {
    ApproachSource source;
    if (value.is(JsonKind::String)) {
        source.always = meaning_of(value, reading.faults, directions);
        return source;
    }
    ObjectReader reader(value, reading.faults, "positive, negative, or an object: column or above, positive, negative");
    source.where = read_where(reader);
    source.positive = read_words(reader, "positive");
    source.negative = read_words(reader, "negative");
    for (const std::string& word : source.positive)
        if (std::ranges::find(source.negative, word) != source.negative.end())
            reading.faults.add(value, "\"" + word + "\" for both approaches", "words that mean one approach");
    reader.finish();
    return source;
}

RunSource read_run_source(const Value& value, MappingReading& reading) {
    constexpr std::array<input::Word<OneRun>, 4> words{
        {{"file", OneRun::File}, {"block", OneRun::Block}, {"row", OneRun::Row}, {"repeat", OneRun::Repeat}}};
    RunSource source;
    if (value.is(JsonKind::String)) {
        if (const auto one = meaning_of(value, reading.faults, words)) source.one = *one;
        return source;
    }
    ObjectReader reader(value, reading.faults, R"("file", "block", "row", "repeat", or an object: column or above)");
    source.where = read_where(reader);
    reader.finish();
    return source;
}

TimeSource read_time_source(const Value& value, MappingReading& reading) {
    ObjectReader reader(value, reading.faults, "an object: column, columns or above; form, offset, date");
    TimeSource source;
    if (value.member("columns") != nullptr) {
        for (const Value& item : reader.array("columns", "an array of columns", 5))
            source.parts.emplace_back(read_column(item, reading.faults));
    } else if (auto where = read_where(reader))
        source.parts.push_back(*std::move(where));
    source.form = reader.text("form");
    if (const Value* const form = value.member("form")) check_form(*form, source.form, reading.faults);
    source.offset = reader.text("offset");
    source.date = reader.text("date");
    if (!source.offset.empty() && !input::iso_date("2026-01-01T00:00" + source.offset))
        reading.faults.add_wrong(*value.member("offset"), "an offset from UTC, as +02:00 or Z");
    if (!source.date.empty() && !input::iso_date(source.date))
        reading.faults.add_wrong(*value.member("date"), "a date of ISO 8601 that exists, as 2026-05-11");
    reader.finish();
    return source;
}

MarkSource read_mark_source(const Value& value, MappingReading& reading) {
    constexpr std::array<input::Word<bool>, 1> forms{{{"list", true}}};
    ObjectReader reader(value, reading.faults, "an object: column, reasons or form");
    MarkSource source;
    if (const Value* const column = reader.require("column", std::string(column_words)))
        source.column = read_column(*column, reading.faults);
    if (const Value* const reasons = reader.find("reasons"))
        for (const Value& reason : reasons->items)
            if (reader.expect(reason, JsonKind::String, "why a reading with this mark does not count"))
                source.reasons.emplace_back(reason.key, reason.text);
    source.listed = reader.choice("form", "a form of marks", forms).value_or(false);
    reader.finish();
    return source;
}

PositionSource read_position_source(const Value& value, MappingReading& reading) {
    constexpr std::array<input::Word<PositionBy>, 3> words{
        {{"in-order", PositionBy::Order}, {"along-travel", PositionBy::Travel}, {"nearest", PositionBy::Nearest}}};
    PositionSource source;
    if (value.is(JsonKind::String)) {
        if (const auto by = meaning_of(value, reading.faults, words)) source.by = *by;
        return source;
    }
    ObjectReader reader(value, reading.faults, R"("in-order", "along-travel", "nearest", or an object: column)");
    if (const Value* const column = reader.require("column", std::string(column_words)))
        source.column = read_column(*column, reading.faults);
    reader.finish();
    return source;
}

Dialect read_dialect(ObjectReader& reader) {
    constexpr std::array<input::Word<Encoding>, 3> encodings{
        {{"utf-8", Encoding::Utf8}, {"utf-16", Encoding::Utf16}, {"latin-1", Encoding::Latin1}}};
    constexpr std::array<input::Word<char>, 3> quotes{{{"\"", '"'}, {"'", '\''}, {"none", Dialect::none}}};
    Dialect dialect;
    dialect.encoding = reader.choice("encoding", "an encoding", encodings).value_or(Encoding::ByMark);
    dialect.quote = reader.choice("quote", "a quotation mark", quotes).value_or('"');
    dialect.delimiter = read_delimiter(reader, dialect.quote);
    dialect.comment = reader.text("comment");
    dialect.decimal_mark = read_mark(reader, "decimal_mark", '.');
    dialect.missing = reader.texts("missing", 100);
    dialect.thousands_mark = reader.text("thousands_mark");
    const Value* const thousands = reader.value().member("thousands_mark");
    if (dialect.thousands_mark == std::string(1, dialect.decimal_mark))
        reader.faults().add_wrong(*thousands, "another mark than that before the decimals");
    if (dialect.thousands_mark.find_first_of("0123456789+-eE") != std::string::npos)
        reader.faults().add_wrong(*thousands, "a mark between thousands, as \",\" or \"'\"");
    return dialect;
}

}  // namespace wayfolio::gather
