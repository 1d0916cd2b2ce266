#include "archive/record/bag.hpp"
#include "catalogue/visit.hpp"
#include "input/iso_date.hpp"
#include "input/json/json.hpp"
#include "input/read_file.hpp"
#include "input/digest.hpp"
#include "document/error_symbol.hpp"
#include "document/states.hpp"
#include "units/position.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace wayfolio::catalogue {
namespace {

namespace fs = std::filesystem;
using input::Value;

struct DamagedRecord {
    std::string reason;
};

const Value* at(const Value* value, std::initializer_list<std::string_view> keys) {
    for (const std::string_view key : keys)
        if (value) value = value->is(input::JsonKind::Object) ? value->member(key) : nullptr;
    return value;
}

std::string text_at(const Value* value, std::initializer_list<std::string_view> keys) {
    const Value* found = at(value, keys);
    return found && found->is(input::JsonKind::String) ? std::string(found->text) : "";
}

std::optional<double> number_at(const Value* value, std::initializer_list<std::string_view> keys) {
    const Value* found = at(value, keys);
    return found && found->is(input::JsonKind::Number) ? std::optional(found->number) : std::nullopt;
}

std::optional<int> whole_at(const Value* value, std::initializer_list<std::string_view> keys) {
    constexpr double most = 1'000'000;
    const auto number = number_at(value, keys);
    return number && *number >= 0 && *number <= most ? std::optional(static_cast<int>(*number)) : std::nullopt;
}

std::span<const Value> items_at(const Value* value, std::string_view key) {
    const Value* found = at(value, {key});
    return found ? found->items : std::span<const Value>();
}

/// The bytes of a file, held against the manifest (RFC 8493, 2.1.3) that names its SHA-256.
std::string checked(const fs::path& bag, const std::string& name, const std::string& manifest) {
    std::string bytes = input::read_regular_file(bag / name);
    std::istringstream lines(manifest);
    for (std::string line; std::getline(lines, line);)
        if (line.ends_with("  " + name)) {
            if (!line.starts_with(input::sha256_hex(bytes) + " "))
                throw DamagedRecord{name + ": changed (its digest differs from the manifest)"};
            return bytes;
        }
    throw DamagedRecord{name + ": no manifest names it"};
}

std::string day_of(const Value* job) {
    for (const std::string& written : {text_at(job, {"measured", "from"}), text_at(job, {"measured", "to"}), text_at(job, {"issued"})})
        if (input::iso_date(written)) return written.substr(0, 10);
    return "";
}

/// What was measured with: instruments, and the squares that squareness was measured against.
void take_instruments(Visit& visit, const Value* document) {
    const auto take = [&](const std::string& serial) {
        if (!serial.empty() && std::ranges::find(visit.instruments, serial) == visit.instruments.end()) visit.instruments.push_back(serial);
    };
    for (const Value& instrument : items_at(document, "instruments")) take(text_at(&instrument, {"serial"}));
    for (const Value& squareness : items_at(document, "squareness")) take(text_at(&squareness, {"square", "serial"}));
}

void take_document(Visit& visit, const Value* document) {
    const Value* job = at(document, {"job"});
    visit.title = text_at(job, {"title"});
    visit.customer = text_at(job, {"customer", "name"});
    visit.notice = text_at(job, {"data_notice"});
    visit.day = day_of(job);
    if (const auto months = whole_at(job, {"agreed_interval", "months"})) visit.due = input::day_after_months(visit.day, *months);
    visit.serial = text_at(document, {"machine", "serial"});
    visit.vertical = text_at(document, {"machine", "vertical"});
    for (const std::string_view key : {"maker", "model", "kind"})
        if (const std::string part = text_at(document, {"machine", key}); !part.empty())
            visit.machine += (visit.machine.empty() ? "" : ", ") + part;
    visit.replaces_job = text_at(job, {"replaces", "number"});
    visit.replaces_revision = whole_at(job, {"replaces", "revision"});
    if (at(job, {"replaces"}) && visit.replaces_job.empty()) visit.replaces_job = text_at(job, {"number"});
}

std::string axis_of(const std::string& error) {
    const auto symbol = document::error_symbol(error);
    return symbol ? symbol->axis : "";
}

/// What all results of a series share.
Result start_of(const Value& series) {
    Result start{.series = text_at(&series, {"id"}),
                 .error = text_at(&series, {"error"}),
                 .axis = axis_of(text_at(&series, {"error"})),
                 .state = text_at(&series, {"state"})};
    const auto unit = units::position_unit(text_at(&series, {"position_unit"}));
    for (const Value& target : items_at(&series, "targets"))
        if (const auto written = number_at(&target, {"position"}); written && unit) {
            const double place = *written * unit->in_natural;
            start.low = std::min(start.low.value_or(place), place);
            start.high = std::max(start.high.value_or(place), place);
        }
    return start;
}

void take_parameters(Visit& visit, const Value& series) {
    const Result start = start_of(series);
    for (const Value& parameter : items_at(&series, "parameters")) {
        Result result = start;
        result.parameter = parameter.key;
        result.unit = text_at(&parameter, {"unit"});
        result.value = number_at(&parameter, {"value"});
        if (!result.value) result.value = number_at(&parameter, {"stated"});
        result.reference_line = text_at(&parameter, {"reference_line"});
        visit.results.push_back(std::move(result));
    }
    for (const Value& reason : items_at(&series, "not_evaluated")) {
        Result result = start;
        result.parameter = reason.key;
        result.reason = reason.text;
        const auto there = std::ranges::find_if(
            visit.results, [&](const Result& one) { return one.series == start.series && one.parameter == result.parameter; });
        if (there == visit.results.end()) visit.results.push_back(std::move(result));
    }
}

/// A parameter of the whole series, or over a length of it.
std::string parameter_of(const Value& entry) {
    const auto length = number_at(&entry, {"length_mm"});
    return text_at(&entry, {"parameter"}) + (length ? fmt::format(" over {} mm", *length) : "");
}

/// "X-Y" of an entry about two axes, else "".
std::string axes_of(const Value& entry) {
    const auto axes = items_at(&entry, "axes");
    return axes.size() == 2 ? fmt::format("{}-{}", axes[0].text, axes[1].text) : "";
}

Result* find_result(Visit& visit, const Value& entry) {
    const std::string series = text_at(&entry, {"series"}), parameter = parameter_of(entry), axes = axes_of(entry);
    for (Result& result : visit.results)
        if (result.series == series && result.parameter == parameter && (axes.empty() || result.error == axes)) return &result;
    return nullptr;
}

/// Squareness belongs to two series and is a result of its own.
void take_squareness(Visit& visit, const Value& entry) {
    Result result{.error = axes_of(entry), .parameter = "squareness", .unit = text_at(&entry, {"unit"})};
    const auto from = items_at(&entry, "from"), axes = items_at(&entry, "axes");
    if (from.size() != 2 || axes.size() != 2) return;
    result.series = from[0].text;
    result.axis = axes[1].text;
    for (const Result& one : visit.results)
        if (one.series == result.series) result.state = one.state;
    result.value = number_at(&entry, {"value"});
    result.reason = text_at(&entry, {"not_evaluated"});
    result.reference_line = text_at(&entry, {"reference_line"});
    visit.results.push_back(std::move(result));
}

/// A decision names its own unit for all its numbers, and its result is shown in that one.
void take_decision(Visit& visit, const Value& decision) {
    Result* result = find_result(visit, decision);
    if (!result || !result->outcome.empty()) {
        Result another{};
        if (result) another = *result;
        another.series = text_at(&decision, {"series"});
        another.parameter = parameter_of(decision);
        for (const Result& one : visit.results)
            if (one.series == another.series && another.error.empty())
                another.state = one.state, another.error = one.error, another.axis = one.axis, another.low = one.low,
                another.high = one.high;
        if (const auto axes = items_at(&decision, "axes"); axes.size() == 2) {
            another.error = axes_of(decision);
            another.axis = axes[1].text;
        }
        result = &visit.results.emplace_back(std::move(another));
    }
    if (const auto value = number_at(&decision, {"value"})) {
        result->value = value;
        result->expanded = number_at(&decision, {"expanded"});
    }
    result->unit = text_at(&decision, {"unit"});
    if (const std::string line = text_at(&decision, {"reference_line"}); !line.empty()) result->reference_line = line;
    result->limit = number_at(&decision, {"limit"});
    result->outcome = text_at(&decision, {"outcome"});
    if (result->outcome == "not_decided") result->reason = text_at(&decision, {"reason"});
}

void take_evaluation(Visit& visit, const Value* evaluation) {
    for (const Value& series : items_at(evaluation, "series")) take_parameters(visit, series);
    for (const Value& squareness : items_at(evaluation, "squareness")) take_squareness(visit, squareness);
    for (const Value& uncertainty : items_at(evaluation, "uncertainty"))
        if (Result* result = find_result(visit, uncertainty); result && result->unit == text_at(&uncertainty, {"unit"}))
            result->expanded = number_at(&uncertainty, {"expanded"});
    for (const Value& decision : items_at(evaluation, "decisions")) take_decision(visit, decision);
}

/// As the first page of a report answers: by the last state, and by the latest there is for what that state lacks.
void mark_answering(Visit& visit) {
    std::vector<std::string> states;
    for (const Result& one : visit.results) states.push_back(one.state);
    const auto compared = document::states_compared(states);
    if (!compared) return;
    visit.first_state = compared->first;
    const auto of_last = [&](const Result& one) { return one.state.empty() || one.state == compared->second; };
    for (Result& one : visit.results) {
        const auto same = [&](const Result& other) { return other.error == one.error; };
        const bool measured_last = std::ranges::any_of(visit.results, [&](const Result& other) { return same(other) && of_last(other); });
        const auto latest = std::ranges::find_if(visit.results.rbegin(), visit.results.rend(), same);
        one.answers = measured_last ? of_last(one) : latest->state == one.state;
    }
}

void read_into(Visit& visit, const fs::path& bag) {
    if (!fs::exists(bag / "bagit.txt")) throw DamagedRecord{"bagit.txt: missing"};
    const std::string manifest = checked(bag, "manifest-sha256.txt", input::read_regular_file(bag / "tagmanifest-sha256.txt"));
    checked(bag, "bag-info.txt", input::read_regular_file(bag / "tagmanifest-sha256.txt"));
    const std::string evaluation_bytes = checked(bag, "data/evaluation.json", manifest),
                      document_bytes = checked(bag, "data/inputs/wayfolio-result.json", manifest);
    const input::Json evaluation = input::read_json(evaluation_bytes, "data/evaluation.json"),
                      document = input::read_json(document_bytes, "data/inputs/wayfolio-result.json");
    if (text_at(&evaluation.root, {"format"}) != "wayfolio-evaluation") throw DamagedRecord{"data/evaluation.json: is not an evaluation"};
    visit.job = text_at(&evaluation.root, {"document", "job"});
    visit.revision = whole_at(&evaluation.root, {"document", "revision"}).value_or(0);
    visit.fingerprint = archive::bag_info(bag, "Wayfolio-Fingerprint");
    take_document(visit, &document.root);
    take_instruments(visit, &document.root);
    take_evaluation(visit, &evaluation.root);
    mark_answering(visit);
}

}  // namespace

Visit read_visit(const fs::path& root, const fs::path& bag) {
    Visit visit;
    visit.folder = bag == root ? "." : bag.lexically_relative(root).string();
    visit.stamp = stamp_of(bag);
    try {
        Visit whole = visit;
        read_into(whole, bag);
        return whole;
    } catch (const DamagedRecord& damaged) {
        visit.fault = damaged.reason;
    } catch (const std::exception& error) {  // a file that is missing, or no JSON
        visit.fault = error.what();
    }
    return visit;
}

}  // namespace wayfolio::catalogue
