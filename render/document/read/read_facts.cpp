#include "document/facts.hpp"

#include "document/read/series_reading.hpp"

namespace wayfolio::document {
namespace {

Limits read_limits(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object with limits: error, machine_kind, tolerances");
    Limits limits;
    SeriesReading at{reading, {}};
    const Value* const error = reader.require("error", "an error symbol, as EXX");
    const auto symbol = error == nullptr ? std::nullopt : written_symbol(*error, reading.faults);
    if (symbol) limits.error = at.series.error = *symbol;
    limits.machine_kind = reader.text("machine_kind");
    reader.require("tolerances", "an array of limits");
    for (const Value& item : reader.array("tolerances", "an array of limits", CountLimits::tolerances))
        if (auto tolerance = symbol ? read_tolerance(item, at) : std::nullopt) limits.tolerances.push_back(*std::move(tolerance));
    reader.finish();
    return limits;
}

void read_parts(ObjectReader& reader, Facts& facts, Reading& reading) {
    const auto part = [&](std::string_view key, auto read) {
        if (const Value* const member = reader.find(key)) read(*member, reading);
    };
    part("machine", read_machine);
    part("job", read_job);
    for (const Value& item : reader.array("instruments", "an array of instruments", CountLimits::instruments))
        facts.document.instruments.push_back(read_instrument(item, reading));
    part("environment", read_environment);
    part("setup", read_setup);
    part("evaluation", read_evaluation_request);
    part("uncertainty", read_uncertainty);
    const Value* const uncertainty = reader.value().member("uncertainty");
    if (const Value* const stated = uncertainty == nullptr ? nullptr : uncertainty->member("stated"))
        reading.faults.add_key(*stated, "contributors alone", "a stated uncertainty belongs to a series of one job");
    for (const Value& item : reader.array("limits", "an array of limits", CountLimits::limits))
        facts.limits.push_back(read_limits(item, reading));
}

}  // namespace

Facts read_facts(std::string bytes, std::string file, const SideFileReader& read_side_file) {
    Facts facts;
    facts.document.file = std::move(file);
    read_whole(facts.document, std::move(bytes),
               {facts_format, read_side_file, [&](ObjectReader& reader, Reading& reading) { read_parts(reader, facts, reading); }});
    return facts;
}

}  // namespace wayfolio::document
