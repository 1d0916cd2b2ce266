#pragma once
#include "document/approach.hpp"
#include "gather/draft/node.hpp"
#include "gather/exports/decimal.hpp"
#include "gather/exports/dialect.hpp"
#include "input/problem.hpp"
#include "units/deviation.hpp"
#include "units/position.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

/// What a mapping says: which column of which export is what. Plain structs, born complete by read_mapping().
namespace wayfolio::gather {

using document::Approach;

/// A column by its head, or by its number from 1.
struct Column {
    std::string head;
    std::size_t number = 0;
};

/// The cell behind the one that says so, in the lines above a head.
struct Above {
    std::string word;
};

using Where = std::variant<Column, Above>;

struct ApproachSource {
    std::optional<Approach> always;
    std::optional<Where> where;
    std::vector<std::string> positive, negative;  ///< the words that mean it
};

/// What makes a run: a cell that names it; the file, the block or the row that it stands in; or how often its target was read before.
enum class OneRun { Named, File, Block, Row, Repeat };

struct RunSource {
    OneRun one = OneRun::Named;
    std::optional<Where> where;  ///< for Named
};

/// Where times stand and how they are written.
struct TimeSource {
    std::vector<Where> parts;  ///< date and time may stand apart: they are joined with a blank
    std::string form;          ///< YYYY MM DD hh mm ss, other letters stand for themselves; "" for ISO 8601
    std::string offset;        ///< from UTC, as +02:00; "" where the cell has it, or nobody knows
    std::string date;          ///< of cells that hold a time of day alone
};

/// A column that sets readings aside.
struct MarkSource {
    Column column;
    std::vector<std::pair<std::string, std::string>> reasons;  ///< by mark; without any, a cell holds the reason itself
    bool listed = false;  ///< cells as `wayfolio table` writes them: "reading 2 (1.4): reason; reading 3: reason"
};

enum class Reads { Deviation, Position };
enum class ColumnsAre { Runs, Targets };

/// Columns with readings of one series.
struct ValueColumns {
    std::size_t series = 0;  ///< place in Mapping::series
    std::vector<Column> columns;
    std::string pattern;  ///< heads with * for any text and # for a number, in place of `columns`; "" for none
    Reads reads = Reads::Deviation;
    ColumnsAre are = ColumnsAre::Runs;
    std::optional<Approach> approach;
    input::Place place;
};

enum class PositionBy { Column, Order, Travel, Nearest };

/// Targets of the readings: from a column, by the order of the rows (as the targets are named; or along the travel, negative runs from the
/// last one), or the nearest one to the actual position.
struct PositionSource {
    PositionBy by = PositionBy::Column;
    std::optional<Column> column;
};

/// What is read of the surroundings, and in which unit.
struct SurroundingsColumn {
    std::string key;     ///< air_C, pressure_hPa, humidity_percent, co2_ppm or machine_C
    std::string sensor;  ///< of machine_C
    Column column;
    std::string unit;  ///< C, F; hPa, kPa, Pa; percent; ppm
};

/// Columns of a record on the fly.
struct TraceSource {
    std::size_t series = 0;
    Column position, value;
    std::optional<Approach> approach;
    std::string side_file;
    input::Place place;
};

/// How one kind of export is read.
struct ExportMapping {
    std::string file;   ///< its name; * stands for any text
    std::string sheet;  ///< "" for a text, or the only sheet
    Dialect dialect;
    std::size_t first_row = 1;  ///< where columns are given by number
    bool ends_at_empty_row = false;
    std::optional<std::pair<std::string, std::string>> block;  ///< only blocks above whose head the first word stands before the second
    std::optional<PositionSource> position;
    std::optional<ApproachSource> approach;
    std::optional<RunSource> run;
    std::optional<std::vector<Approach>> motion;  ///< runs follow from the way the position goes, in these directions
    std::optional<TimeSource> time;
    std::optional<MarkSource> excluded;
    bool falling_positive = false;  ///< runs named positive may list their targets from high to low
    std::vector<ValueColumns> values;
    std::vector<SurroundingsColumn> surroundings;
    std::optional<TraceSource> trace;
    input::Place place;
};

/// A series that readings go into.
struct SeriesMapping {
    std::string id, state;
    units::DeviationUnit unit = units::micrometre;
    units::PositionUnit position_unit = units::position_millimetre;
    bool target_minus_actual = false, steps = false;
    std::vector<Decimal> targets;  ///< as named in the mapping; empty: those of the export
    Node members;                  ///< what the document's series gets besides its readings
    input::Place place;
};

/// A file of facts that goes with each job of this mapping.
struct NamedFacts {
    std::string file;
    input::Place place;
};

struct Mapping {
    std::string file, sha256;
    std::vector<NamedFacts> facts;
    std::vector<SeriesMapping> series;
    std::vector<ExportMapping> exports;
};

/// Reads a mapping.
/// @param bytes JSON, UTF-8
/// @param file the name used in messages
/// @throws input::InputRejected with every fault found; open places ("?") are told alone
Mapping read_mapping(std::string_view bytes, const std::string& file);

/// The JSON Schema (draft-07 vocabulary) of a mapping, as text.
std::string_view mapping_schema();

/// Whether a file's name is one that `pattern` stands for: * is any text, all else itself.
bool matches(std::string_view pattern, std::string_view name);

}  // namespace wayfolio::gather
