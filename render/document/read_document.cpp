#include "document/read/reading.hpp"

#include "input/read_file.hpp"
#include "input/digest.hpp"

namespace wayfolio::document {
namespace {

template <class Part>
void read_part(ObjectReader& reader, std::string_view key, Part part, Reading& reading) {
    if (const Value* const member = reader.find(key)) part(*member, reading);
}

/// Series that wait for their readings are kept apart: nothing of them can be evaluated. Places in the file stay those of the others.
void take_series(const Value& item, Reading& reading) {
    Series series = read_series(item, reading);
    const bool waits = series.plan && item.member("runs") == nullptr && item.member("trace") == nullptr && item.member("stated") == nullptr;
    if (!waits && !reading.document.planned.empty())
        reading.faults.add(item, "a series with readings behind one that waits for them", "series with readings first",
                           "put the planned series without readings last");
    (waits ? reading.document.planned : reading.document.series).push_back(std::move(series));
}

/// The parts in the order in which they refer to each other, whatever their order in the file.
void read_parts(ObjectReader& reader, Reading& reading) {
    Document& document = reading.document;
    read_part(reader, "machine", read_machine, reading);
    read_part(reader, "job", read_job, reading);
    for (const Value& item : reader.array("instruments", "an array of instruments", CountLimits::instruments))
        document.instruments.push_back(read_instrument(item, reading));
    read_part(reader, "environment", read_environment, reading);
    read_part(reader, "setup", read_setup, reading);
    const Value* const series = reader.require("series", "an array of series");
    for (const Value& item : reader.array("series", "an array of series", CountLimits::series))
        take_series(item, reading);
    if (document.series.empty() && !document.planned.empty())
        reading.faults.add_wrong(*series, "at least one series with readings",
                                 "this is a plan: wayfolio gather --into puts the readings into it");
    if (series != nullptr && series->is(JsonKind::Array) && series->items.empty())
        reading.faults.add_wrong(*series, "at least one series");
    read_part(reader, "evaluation", read_evaluation_request, reading);
    read_part(reader, "uncertainty", read_uncertainty, reading);
    for (const Value& item : reader.array("drift", "an array of drift records", CountLimits::drift_records))
        document.drift.push_back(read_drift(item, reading));
    for (const Value& item : reader.array("squareness", "an array of squarenesses", CountLimits::squarenesses))
        document.squareness.push_back(read_squareness(item, reading));
    for (const Value& item : reader.array("compensation", "an array of compensations", CountLimits::compensations))
        document.compensation.push_back(read_compensation(item, reading));
    for (const Value& item : reader.array("facts", "an array of files", CountLimits::facts_files))
        document.facts.push_back(read_facts_file(item, reading));
    check_stated_digests(reading);
}

void check_format(ObjectReader& reader, input::Faults& faults, std::string_view format_name) {
    reader.text("$schema");  // for editors: it changes nothing
    const Value* const format = reader.require("format", input::quoted(format_name));
    if (format != nullptr && !(format->is(JsonKind::String) && format->text == format_name))
        faults.add_wrong(*format, input::quoted(format_name));
    const Value* const version = reader.require("version", "1");
    if (version == nullptr || (version->is(JsonKind::Number) && version->number == 1)) return;
    const bool newer = version->is(JsonKind::Number) && version->number > 1;
    faults.add_wrong(*version, "1", newer ? "the document was made for a newer wayfolio" : "");
    if (newer) faults.reject_if_any();
}

}  // namespace

void read_whole(Document& document, std::string bytes, const Whole& whole) {
    document.bytes = std::move(bytes);
    const input::Json json = input::read_json(document.bytes, document.file);
    input::Faults faults(document.file, json);
    Reading reading{faults, whole.read_side_file, document};
    ObjectReader reader(json.root, faults, "a JSON object");
    check_format(reader, faults, whole.format);
    whole.read_parts(reader, reading);
    reader.finish();
    faults.reject_if_any();
    document.sha256 = input::sha256_hex(document.bytes);
}

Document read_document(std::string bytes, std::string file, const SideFileReader& read_side_file) {
    Document document;
    document.file = std::move(file);
    read_whole(document, std::move(bytes),
               {"wayfolio-result", read_side_file, [](ObjectReader& reader, Reading& reading) { read_parts(reader, reading); }});
    return document;
}

Document read_document(const std::filesystem::path& path) {
    const bool standard_input = path == "-";
    const std::filesystem::path folder = standard_input ? std::filesystem::path() : path.parent_path();
    Document document = read_document(input::read_file(path), standard_input ? "standard input" : path.string(),
                                      {[&folder](const std::string& name) { return input::read_file_beside(folder, name); },
                                       [&folder](const std::string& name) { return input::source_beside(folder, name); }});
    document.files.push_back(path);
    for (const SideFile& file : document.side_files) document.files.push_back(folder / file.name);
    for (const LargeSideFile& file : document.large_side_files) document.files.push_back(folder / file.name);
    return document;
}

}  // namespace wayfolio::document
