#include "document/read/reading.hpp"

#include "document/parameter.hpp"

#include <array>

namespace wayfolio::document {
namespace {

constexpr std::array<Word<Status>, 2> statuses{{{"draft", Status::Draft}, {"final", Status::Final}}};
constexpr std::array<Word<PlaceKind>, 5> place_kinds{{{"laboratory", PlaceKind::Laboratory},
                                                      {"customer", PlaceKind::Customer},
                                                      {"laboratory-branch", PlaceKind::LaboratoryBranch},
                                                      {"customer-branch", PlaceKind::CustomerBranch},
                                                      {"other", PlaceKind::Other}}};
constexpr std::uint64_t most_revisions = 1'000'000;

Party read_party(ObjectReader& reader) {
    return {reader.text("name"), reader.text("contact"), reader.texts("address", CountLimits::address_lines)};
}

std::optional<Laboratory::Capability> read_capability(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an error, a parameter and the smallest expanded uncertainty");
    // What a laboratory can do is not bound to the axes of this machine.
    const Value* const error = reader.require("error", "an error symbol, as EXX");
    const auto symbol = error == nullptr ? std::nullopt : written_symbol(*error, reading.faults);
    const Value* const parameter = reader.require("parameter", "the name of a parameter");
    std::optional<Dimension> dimension;
    std::optional<std::size_t> place;
    if (symbol && parameter != nullptr) {
        place = reader.place_of_word(*parameter, "a parameter of " + symbol->text(), parameter_names(*symbol));
        dimension = parameter_dimension(*symbol, parameter->text);
    }
    const auto expanded = reader.required_number("expanded", size);
    const auto unit = read_deviation_unit(reader, "unit", dimension);
    reader.finish();
    if (!place || !expanded || !unit) return std::nullopt;
    return Laboratory::Capability{symbol->text(), std::string(parameter->text), Deviation(*expanded, *unit), *unit};
}

/// A country code; empty if absent or faulty.
std::string read_country(ObjectReader& reader) {
    const Value* const member = reader.find("country");
    if (member == nullptr) return {};
    const auto capital = [](char letter) { return letter >= 'A' && letter <= 'Z'; };
    const bool sound = member->is(JsonKind::String) && member->text.size() == 2 && capital(member->text[0]) && capital(member->text[1]);
    if (sound) return std::string(member->text);
    reader.faults().add_wrong(*member, "a country code of ISO 3166-1: two capital letters, as DE or JP");
    return {};
}

Laboratory read_laboratory(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object with the laboratory: name, address, contact ...");
    Laboratory laboratory{read_party(reader), reader.text("accreditation"), read_country(reader), {}, {}};
    if (const Value* const logo = reader.find("logo")) laboratory.logo = read_logo(*logo, reading);
    for (const Value& item : reader.array("capability", "an array of smallest uncertainties", CountLimits::capabilities))
        if (auto capability = read_capability(item, reading)) laboratory.capability.push_back(*std::move(capability));
    reader.finish();
    return laboratory;
}

Party read_customer(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object with the customer: name, address, contact");
    Party customer = read_party(reader);
    reader.finish();
    return customer;
}

std::optional<int> read_revision(ObjectReader& reader) {
    const auto revision = reader.whole("revision", 0, most_revisions);
    return revision ? std::optional(static_cast<int>(*revision)) : std::nullopt;
}

Replaces read_replaces(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object with the report that this one replaces: number, revision, issued, reason");
    Replaces replaces{reader.text("number"), read_date(reader, "issued"), reader.text("reason"), read_revision(reader)};
    reader.finish();
    return replaces;
}

std::optional<AgreedInterval> read_agreed_interval(const Value& value, Reading& reading) {
    constexpr double least = 1, most = 240;
    ObjectReader reader(value, reading.faults, "an object with what was agreed: months, agreed_with");
    const auto months = reader.whole("months", least, most);
    std::string with = reader.required_text("agreed_with", "whom it was agreed with: without that nothing is recommended");
    if (value.is(JsonKind::Object) && reader.find("months") == nullptr)
        reading.faults.add(value, "no key \"months\"", "the months until the next measurement");
    reader.finish();
    if (!months) return std::nullopt;
    return AgreedInterval{static_cast<int>(*months), std::move(with)};
}

Person read_person(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object with a person: role, name");
    Person person{reader.text("role"), reader.required_text("name", "the person's name")};
    for (const char* label : {"role", "name"}) check_label(value.member(label), reading.faults);
    reader.finish();
    return person;
}

void read_measured(const Value& value, Job& job, Reading& reading) {
    ObjectReader reader(value, reading.faults, "an object with the times of measurement: from, to");
    job.measured_from = read_date(reader, "from");
    job.measured_to = read_date(reader, "to");
    check_order(reader, "from", "to");
    reader.finish();
}

}  // namespace

void read_job(const Value& value, Reading& reading) {
    ObjectReader reader(value, reading.faults, "the job");
    Job& job = reading.document.job;
    job.number = reader.text("number");
    job.title = reader.text("title");
    job.order = reader.text("order");
    if (const auto status = reader.choice("status", "a status", statuses)) {
        job.status = *status;
        job.status_stated = true;
    }
    if (const Value* const customer = reader.find("customer")) job.customer = read_customer(*customer, reading);
    if (const Value* const laboratory = reader.find("laboratory")) job.laboratory = read_laboratory(*laboratory, reading);
    job.place = reader.text("place");
    job.place_kind = reader.choice("place_kind", "whose place it is", place_kinds);
    if (const Value* const measured = reader.find("measured")) read_measured(*measured, job, reading);
    job.issued = read_date(reader, "issued");
    job.revision = read_revision(reader);
    if (const Value* const replaces = reader.find("replaces")) job.replaces = read_replaces(*replaces, reading);
    if (const Value* const agreed = reader.find("agreed_interval")) job.agreed_interval = read_agreed_interval(*agreed, reading);
    for (const Value& person : reader.array("people", "an array of people", CountLimits::people))
        job.people.push_back(read_person(person, reading));
    job.method = reader.text("method");
    job.remarks = reader.texts("remarks", CountLimits::remarks);
    job.data_notice = reader.text("data_notice");
    reader.finish();
}

}  // namespace wayfolio::document
