#include "gather/mapping/reading.hpp"

#include "document/error_symbol.hpp"
#include "input/read_file.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::gather {
namespace {

struct SurroundingsKey {
    std::string_view key, unit;
    std::array<std::string_view, 3> units;  ///< "" where there are fewer
};
constexpr std::array<SurroundingsKey, 5> surroundings_keys{{{"air_C", "C", {"C", "F", ""}},
                                                            {"pressure_hPa", "hPa", {"hPa", "kPa", "Pa"}},
                                                            {"humidity_percent", "percent", {"percent", "", ""}},
                                                            {"co2_ppm", "ppm", {"ppm", "", ""}},
                                                            {"machine_C", "C", {"C", "F", ""}}}};

SurroundingsColumn read_surroundings_column(const Value& value, const SurroundingsKey& key, std::string sensor, MappingReading& reading) {
    SurroundingsColumn read{std::string(key.key), std::move(sensor), {}, std::string(key.unit)};
    ObjectReader reader(value, reading.faults, "an object: column, unit");
    if (const Value* const column = reader.require("column", "the head of a column, or its number from 1"))
        read.column = read_column(*column, reading.faults);
    if (const Value* const unit = reader.find("unit")) {
        std::vector<std::string_view> units(key.units.begin(), key.units.end());
        std::erase(units, "");
        if (const auto place = reader.place_of_word(*unit, "a unit", units)) read.unit = units[*place];
    }
    reader.finish();
    return read;
}

void read_surroundings(const Value& value, ExportMapping& into, MappingReading& reading) {
    ObjectReader reader(value, reading.faults, "an object: air_C, pressure_hPa, humidity_percent, co2_ppm, machine_C");
    for (const SurroundingsKey& key : surroundings_keys) {
        const Value* const member = reader.find(key.key);
        if (member == nullptr) continue;
        if (key.key != "machine_C")
            into.surroundings.push_back(read_surroundings_column(*member, key, {}, reading));
        else
            for (const Value& sensor : member->items)
                into.surroundings.push_back(read_surroundings_column(sensor, key, std::string(sensor.key), reading));
    }
    reader.finish();
    if (into.surroundings.empty() && value.is(JsonKind::Object)) reading.faults.add_wrong(value, "at least one column of the environment");
}

Reads read_kind_of_number(ObjectReader& reader) {
    constexpr std::array<input::Word<Reads>, 2> words{{{"deviation", Reads::Deviation}, {"position", Reads::Position}}};
    return reader.choice("reads", "what the numbers are", words).value_or(Reads::Deviation);
}

ValueColumns read_value_columns(const Value& value, MappingReading& reading) {
    constexpr std::array<input::Word<ColumnsAre>, 2> words{{{"runs", ColumnsAre::Runs}, {"targets", ColumnsAre::Targets}}};
    ObjectReader reader(value, reading.faults, "an object: series, column or columns");
    ValueColumns read;
    read.place = reading.place_of(value);
    read.series = read_series_place(reader, reading).value_or(0);
    const Value *const one = reader.find("column"), *const many = reader.find("columns");
    if ((one == nullptr) == (many == nullptr) && reader.is_object())
        reading.faults.add(value, one == nullptr ? "neither \"column\" nor \"columns\"" : "both \"column\" and \"columns\"",
                           "one of the two");
    if (one != nullptr) read.columns.push_back(read_column(*one, reading.faults));
    if (many != nullptr && many->is(JsonKind::String)) {
        read.pattern = many->text;
        if (read.pattern.find_first_of("*#") == std::string::npos)
            reading.faults.add_wrong(*many, "an array of columns, or heads with # for a number, as \"Run #\"");
    } else if (many != nullptr) {
        for (const Value& item : reader.array("columns", "an array of columns, or heads with # for a number, as \"Run #\"", 10'000))
            read.columns.push_back(read_column(item, reading.faults));
        if (many->is(JsonKind::Array) && many->items.empty()) reading.faults.add_wrong(*many, "at least one column");
    }
    read.reads = read_kind_of_number(reader);
    read.are = reader.choice("are", "what the columns are", words).value_or(ColumnsAre::Runs);
    read.approach = read_direction(reader, "approach");
    reader.finish();
    return read;
}

TraceSource read_trace_source(const Value& value, MappingReading& reading) {
    ObjectReader reader(value, reading.faults, "an object: series, position, value, side_file");
    TraceSource read;
    read.place = reading.place_of(value);
    read.series = read_series_place(reader, reading).value_or(0);
    if (const Value* const column = reader.require("position", "the column of positions"))
        read.position = read_column(*column, reading.faults);
    if (const Value* const column = reader.require("value", "the column of values")) read.value = read_column(*column, reading.faults);
    read.approach = read_direction(reader, "approach");
    read.side_file = reader.required_text("side_file", "the name of the file that the samples go into, beside the document");
    if (!read.side_file.empty() && !input::is_plain_file_name(read.side_file))
        reading.faults.add_wrong(*value.member("side_file"), "the name of a file, without a folder");
    reader.finish();
    return read;
}

void read_block(const Value& value, ExportMapping& into, MappingReading& reading) {
    ObjectReader reader(value, reading.faults, "an object: above, is");
    std::string word = reader.required_text("above", "the text of a cell above the head");
    into.block = {std::move(word), reader.required_text("is", "the text of the cell behind it")};
    reader.finish();
}

void read_motion(const Value& value, ExportMapping& into, MappingReading& reading) {
    auto& stated = into.motion.emplace();
    if (!value.is(JsonKind::Array) || value.items.empty() || value.items.size() > 2)
        reading.faults.add_wrong(value, "an array of one or two directions of approach");
    else
        for (const Value& item : value.items)
            if (const auto direction = meaning_of(item, reading.faults, directions)) stated.push_back(*direction);
    if (stated.size() == 2 && stated[0] == stated[1]) reading.faults.add_wrong(value, "each direction once");
}

bool several(const ValueColumns& values) { return !values.pattern.empty() || values.columns.size() > 1; }

/// What each group of readings needs to be told apart: a run and an approach for each, from one source alone.
void check_runs(const Value& value, const ExportMapping& read, MappingReading& reading) {
    for (const ValueColumns& values : read.values) {
        const bool columns_are_runs = values.are == ColumnsAre::Runs && several(values);
        const auto fault = [&](std::string found, std::string expected) {
            reading.faults.add(value, std::move(found), std::move(expected));
        };
        if (read.motion && (read.run || read.approach || values.approach || columns_are_runs))
            fault("\"motion\" beside a run or an approach", "one of them: with \"motion\" both follow from the positions");
        else if (!read.motion && !read.approach && !values.approach)
            fault("no approach", R"("approach" for the export or its values, or "motion")");
        else if (columns_are_runs && read.run && read.run->one != OneRun::File && read.run->one != OneRun::Block)
            fault("columns that are runs, and a \"run\" for each row", "one of them");
        else if (!read.motion && !columns_are_runs && !read.run)
            fault("no run", R"("run": which column numbers it, or "file", "block", "row" or "repeat")");
        const bool column = read.position && read.position->by == PositionBy::Column && values.are == ColumnsAre::Runs;
        if (read.run && read.run->one == OneRun::Repeat && !column)
            fault("runs that are counted at their targets, and no column of targets", R"("position": the column of targets)");
        if (!read.position && values.are == ColumnsAre::Runs)
            fault("no position", R"("position": the column of targets, "in-order", "along-travel" or "nearest")");
        const bool by_targets = read.position && read.position->by != PositionBy::Column;
        if (by_targets && values.series < reading.mapping.series.size() && reading.mapping.series[values.series].targets.empty())
            fault("no targets of the series", R"("targets" for the series under "series", for no column names them)");
        if (values.reads == Reads::Position && values.series < reading.mapping.series.size()) {
            const auto symbol = document::error_symbol(reading.mapping.series[values.series].members.string("error"));
            if (symbol && symbol->kind() != document::ErrorKind::Positioning)
                fault("positions as readings of " + symbol->text(), "a positioning error: other deviations do not follow from positions");
        }
        if (read.position && read.position->by == PositionBy::Nearest && values.reads != Reads::Position)
            fault(R"("nearest" with deviations)", R"("reads": "position": targets are found by actual positions alone)");
    }
}

void check_content(const Value& value, const ExportMapping& read, MappingReading& reading) {
    if (value.is(JsonKind::Object) && read.values.empty() && read.surroundings.empty() && !read.trace)
        reading.faults.add_missing(value, "values", R"("values", "environment" or "trace": what the export holds)");
    check_runs(value, read, reading);
    if (!read.surroundings.empty() && !read.time)
        reading.faults.add_missing(value, "time", "the column of times, which an environment record has");
}

}  // namespace

ExportMapping read_export_mapping(const Value& value, MappingReading& reading) {
    constexpr std::array<input::Word<bool>, 1> ends{{{"empty-row", true}}};
    ObjectReader reader(value, reading.faults, "an export");
    ExportMapping read;
    read.place = reading.place_of(value);
    read.file = reader.required_text("file", "the name of the file; * stands for any text");
    read.sheet = reader.text("sheet");
    read.dialect = read_dialect(reader);
    read.first_row = reader.whole("first_row", 1, 1'000'000).value_or(1);
    read.ends_at_empty_row = reader.choice("ends", "where the rows end", ends).value_or(false);
    const auto part = [&](std::string_view key, const auto& take) {
        if (const Value* const member = reader.find(key)) take(*member);
    };
    part("block", [&](const Value& member) { read_block(member, read, reading); });
    part("position", [&](const Value& member) { read.position = read_position_source(member, reading); });
    part("approach", [&](const Value& member) { read.approach = read_approach_source(member, reading); });
    part("run", [&](const Value& member) { read.run = read_run_source(member, reading); });
    part("motion", [&](const Value& member) { read_motion(member, read, reading); });
    part("time", [&](const Value& member) { read.time = read_time_source(member, reading); });
    part("excluded", [&](const Value& member) { read.excluded = read_mark_source(member, reading); });
    read.falling_positive = reader.flag("falling_positive").value_or(false);
    for (const Value& item : reader.array("values", "an array of columns with readings", 1000))
        read.values.push_back(read_value_columns(item, reading));
    part("environment", [&](const Value& member) { read_surroundings(member, read, reading); });
    part("trace", [&](const Value& member) { read.trace = read_trace_source(member, reading); });
    reader.finish();
    check_content(value, read, reading);
    return read;
}

}  // namespace wayfolio::gather
