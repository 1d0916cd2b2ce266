#include "report/words/passages.hpp"

#include "report/words/names.hpp"
#include "input/iso_date.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::report {
namespace {

std::string joined(const std::vector<std::string>& parts, const std::string& between) {
    std::string all;
    for (const std::string& part : parts) {
        if (part.empty()) continue;
        all += (all.empty() ? "" : between) + part;
    }
    return all;
}

std::string travel_text(const Subject& subject, const document::Travel& travel) {
    const auto number = [&](const Position& at) {
        constexpr int most = 3;
        const double value = at.in(travel.unit);
        return units::number(value, units::decimals_needed(value, most), style_of(subject));
    };
    return number(travel.from) + " to " + with_unit(number(travel.to), travel.unit.symbol);
}

Fact party(const std::string& name, const document::Party& who) {
    const std::string address = joined(who.address, ", ");
    Fact fact{.name = name, .lines = {Text(who.name)}};
    if (const std::string line = joined({address, who.contact}, ", "); !line.empty()) fact.lines.emplace_back(line);
    return fact;
}

std::string next_measurement(const document::Job& job) {
    if (!job.agreed_interval) return "";
    const auto& [months, with] = *job.agreed_interval;
    const std::string day = input::day_after_months(job.measured_from.empty() ? job.measured_to : job.measured_from, months);
    return fmt::format("{}after {} {}, as agreed with {}", day.empty() ? "" : "until " + day + ", ", months,
                       months == 1 ? "month" : "months", with);
}

/// What page 1 and the head of each page say stands there only.
Section job_section(const Subject& subject) {
    const auto& job = subject.document.job;
    const bool answered = has_answer(subject);
    std::vector<Fact> facts;
    if (!answered) add_fact(facts, "Report", joined({job.number, job.revision ? "revision " + std::to_string(*job.revision) : ""}, ", "));
    add_fact(facts, "Title", job.title);
    if (!answered) add_fact(facts, "Order", job.order);
    if (job.laboratory && !answered) {
        facts.push_back(party("Laboratory", *job.laboratory));
        add_fact(facts, "Accreditation", job.laboratory->accreditation);
    }
    if (job.customer) facts.push_back(party("Customer", *job.customer));
    if (!answered) add_fact(facts, "Place of measurement", job.place);
    add_fact(facts, "Measured", joined({job.measured_from, job.measured_to}, " to "));
    add_fact(facts, "Issued", job.issued);
    add_fact(facts, "Method", job.method);
    add_fact(facts, "Next measurement", next_measurement(job));
    return {.heading = "Job", .parts = {FactTable{facts}}, .set_as = SetAs::Reference};
}

Section machine_section(const Subject& subject, const document::Machine& machine) {
    std::vector<Fact> facts;
    if (!has_answer(subject)) {
        add_fact(facts, "Kind", machine.kind);
        add_fact(facts, "Maker and model", joined({machine.maker, machine.model}, ", "));
        add_fact(facts, "Serial number", machine.serial);
    }
    add_fact(facts, "Controller", machine.controller);
    add_fact(facts, "Condition", machine.condition);
    add_fact(facts, "Vertical axis", machine.vertical);
    const units::NumberStyle style = style_of(subject);
    if (machine.least_increment_um)
        add_fact(facts, "Least increment", with_unit(units::number(*machine.least_increment_um, 1, style), "µm"));
    for (const auto& axis : machine.axes) {
        std::vector<std::string> parts{axis.kind == document::AxisKind::Rotary ? "rotary" : "linear"};
        if (axis.travel) parts.push_back("travel " + travel_text(subject, *axis.travel));
        if (axis.moves) parts.emplace_back(*axis.moves == document::Moves::Tool ? "moves the tool" : "moves the workpiece");
        if (!axis.sensors.empty()) parts.push_back("sensors: " + listed(axis.sensors));
        if (axis.expansion) parts.push_back("expansion " + with_unit(units::number(axis.expansion->value, 1, style), "µm/(m\u202fK)"));
        add_fact(facts, "Axis " + axis.name, joined(parts, ", "));
    }
    return {.heading = "Machine", .parts = {FactTable{facts}}, .set_as = SetAs::Reference};
}

/// Standards that the evaluation follows, each once.
std::vector<std::string> standards_used(const evaluate::Evaluation& evaluation) {
    std::vector<std::string> standards;
    for (const auto& series : evaluation.series) {
        if (!series.standard.empty()) add_once(standards, series.standard);
    }
    std::ranges::sort(standards);
    return standards;
}

}  // namespace

bool has_answer(const Subject& subject) {
    return std::ranges::find(subject.layout.blocks, "answer") != subject.layout.blocks.end();
}

void add_fact(std::vector<Fact>& facts, const std::string& name, const std::string& value) {
    if (!value.empty()) facts.push_back({name, {Text(value)}});
}

void add_section(std::vector<Section>& sections, std::optional<Section> section) {
    if (section) sections.push_back(std::move(*section));
}

std::string measured_words(const document::Job& job) {
    const std::string from = date_part(job.measured_from), to = date_part(job.measured_to);
    return to.empty() || to == from ? from : from.empty() ? to : from + " to " + to;
}

std::vector<Signature> signatures_of(const Subject& subject) {
    const std::vector<document::Person>& people = subject.document.job.people;
    std::vector<Signature> signatures;
    for (const std::string& role : subject.layout.house.signatures) {
        const auto same = std::ranges::find_if(people, [&](const auto& person) { return capitalised(person.role) == capitalised(role); });
        signatures.push_back({capitalised(role), same == people.end() ? "" : same->name});
    }
    if (!signatures.empty()) return signatures;
    for (const auto& person : people) signatures.push_back({capitalised(person.role), person.name});
    if (signatures.empty()) signatures = {{"Measured by", ""}, {"Approved by", ""}};
    return signatures;
}

std::vector<Fact> short_facts(const Subject& subject) {
    const document::Document& document = subject.document;
    std::vector<Fact> facts;
    if (document.job.customer) add_fact(facts, "Customer", document.job.customer->name);
    add_fact(facts, "Order", document.job.order);
    if (document.machine) {
        const auto& machine = *document.machine;
        add_fact(facts, "Machine",
                 joined({capitalised(machine.kind), joined({machine.maker, machine.model}, " "),
                         machine.serial.empty() ? "" : "serial " + machine.serial},
                        ", "));
        for (const auto& axis : machine.axes) {
            const bool measured = std::ranges::any_of(document.series, [&](const auto& series) { return series.error.axis == axis.name; });
            if (measured) add_fact(facts, "Axis", axis.name + (axis.travel ? ", travel " + travel_text(subject, *axis.travel) : ""));
        }
    }
    add_fact(facts, "Place", document.job.place);
    if (!document.job.measured_from.empty()) add_fact(facts, "Measured", measured_words(document.job));
    Fact standards{.name = "Method"};
    for (const std::string& standard : standards_used(subject.evaluation)) standards.lines.emplace_back(standard);
    if (!standards.lines.empty()) facts.push_back(std::move(standards));
    return facts;
}

std::vector<Section> fact_sections(const Subject& subject) {
    std::vector<Section> sections{job_section(subject)};
    if (subject.document.machine) sections.push_back(machine_section(subject, *subject.document.machine));
    std::erase_if(sections, [](const Section& section) { return std::get<FactTable>(section.parts[0]).facts.empty(); });
    add_section(sections, traceability_section(subject));
    return sections;
}

}  // namespace wayfolio::report
