#pragma once
#include "input/iso_date.hpp"
#include "input/json/object_reader.hpp"
#include "document/document.hpp"
#include "document/read/count_limits.hpp"
#include "document/read/number_rules.hpp"
#include "document/read_document.hpp"
#include "units/position.hpp"

#include <array>
#include <functional>

/// The parts of read_document(). Private to this room: each part reads one member of the document into it and notes the faults.
/// They run in an order in which whatever a part refers to has been read before it.
namespace wayfolio::document {

using input::JsonKind;
using input::ObjectReader;
using input::Value;
using input::Word;
using units::Dimension;

/// A digest that the document states of a file that it does not keep.
struct StatedDigest {
    const Value& at;
    std::string file, sha256;
};

struct Reading {
    input::Faults& faults;
    const SideFileReader& read_side_file;
    Document& document;
    std::vector<StatedDigest> stated_digests{};
};

/// How a file is read as a whole.
struct Whole {
    std::string_view format;
    const SideFileReader& read_side_file;
    std::function<void(ObjectReader&, Reading&)> read_parts;
};

/// Reads the whole of a file into a document, which has the file's name already: its bytes, format and version first (what a newer or
/// another format means cannot be said), its parts, its digest. @throws input::InputRejected
void read_whole(Document& document, std::string bytes, const Whole& whole);

void read_job(const Value& value, Reading& reading);
void read_machine(const Value& value, Reading& reading);
Instrument read_instrument(const Value& value, Reading& reading);
void read_environment(const Value& value, Reading& reading);
void read_setup(const Value& value, Reading& reading);
Series read_series(const Value& value, Reading& reading);
void read_evaluation_request(const Value& value, Reading& reading);
void read_uncertainty(const Value& value, Reading& reading);
DriftRecord read_drift(const Value& value, Reading& reading);
SquarenessRequest read_squareness(const Value& value, Reading& reading);
CompensationRequest read_compensation(const Value& value, Reading& reading);

/// Where readings came from. A kept file must have the digest that is stated; of others see check_stated_digests().
Origin read_origin(const Value& value, Reading& reading);

/// Facts that went into the document. Where they are not kept, a file of that name may be another one by now: it is not looked at.
OriginFile read_facts_file(const Value& value, Reading& reading);

/// Holds the digests of files that are not kept against those that lie beside the document under their names.
void check_stated_digests(Reading& reading);

/// A logo as the document names it: an SVG or PNG file beside the document (kept as a side file), or a data: URI of one.
/// Empty and a fault when it is neither.
std::string read_logo(const Value& value, Reading& reading);

// Shared by the parts.

/// A date of ISO 8601, as written; empty if absent or faulty.
std::string read_date(ObjectReader& reader, std::string_view key);
/// Two dates of which the second must not be before the first.
void check_order(ObjectReader& reader, std::string_view first, std::string_view second);
/// A name that stands as a label beside others, in heads of tables and in the margin: at most 100 characters.
void check_label(const Value* value, input::Faults& faults);
/// An error symbol, whatever axes the machine has.
std::optional<ErrorSymbol> written_symbol(const Value& value, input::Faults& faults);
/// An error symbol whose axis is one of the machine's, where the document names those.
std::optional<ErrorSymbol> symbol_of(const Value& value, const Reading& reading);
/// The same for a key that must be there.
std::optional<ErrorSymbol> read_symbol(ObjectReader& reader, std::string_view key, const Reading& reading);
/// The name of an axis of the machine, where the document names those; any name else.
std::string read_axis_name(ObjectReader& reader, std::string_view key, const Reading& reading);
void check_axis_name(const Value& value, const Reading& reading);
/// A unit of deviations; of one dimension if given.
std::optional<DeviationUnit> read_deviation_unit(ObjectReader& reader, std::string_view key, std::optional<Dimension> dimension);
/// The same where "um/m" (micrometres per metre of length) also goes with a length.
std::optional<DeviationUnit> read_contributor_unit(ObjectReader& reader, std::string_view key, Dimension dimension);
/// Limit, unit and source of a tolerance on a parameter that is a length or an angle.
std::optional<Tolerance> read_limit(ObjectReader& reader, std::optional<Dimension> dimension);
/// The bytes of a side file, kept in the document; nullopt and a fault at `mention` when it cannot be had.
std::optional<std::string> read_side_file(const Value& mention, Reading& reading);

/// The same of a file that may be too large to be held; it is then among the document's large ones.
struct FoundSideFile {
    input::ByteSource source;
    std::string sha256;
};
/// @param look reads the file: of a large one while another thread makes its digest
std::optional<FoundSideFile> side_file_source(const Value& mention, Reading& reading,
                                              const std::function<void(const input::ByteSource&)>& look);
/// The series that `key` names, or nullptr and a fault.
const Series* read_series_reference(ObjectReader& reader, std::string_view key, const Reading& reading);
const Series* series_of(const Value& value, const Reading& reading);

/// The units in which a document may give positions along a linear axis.
inline constexpr std::array<input::Word<units::PositionUnit>, 2> linear_units{
    {{"mm", units::position_millimetre}, {"in", units::position_inch}}};

/// The same about a rotary axis.
inline constexpr std::array<input::Word<units::PositionUnit>, 1> rotary_units{{{"deg", units::position_degree}}};

}  // namespace wayfolio::document
