#include "gather/facts/list_facts.hpp"

#include "document/facts.hpp"
#include "gather/facts/merge_facts.hpp"
#include "input/encoding.hpp"
#include "input/json/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace wayfolio::gather {
namespace {

using document::Facts;
using document::Instrument;
using input::printable;

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string text;
    for (const std::string& part : parts)
        if (!part.empty()) text += (text.empty() ? "" : std::string(between)) + part;
    return text;
}

std::string labelled(std::string_view label, const std::string& value) { return value.empty() ? "" : fmt::format("{} {}", label, value); }

std::string if_any(std::size_t count, std::string_view one, std::string_view many) {
    return count == 0 ? "" : fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string limits_words(const std::vector<document::Limits>& limits) {
    std::set<std::string> errors, kinds;
    for (const document::Limits& one : limits) {
        errors.insert(one.error.text());
        if (!one.machine_kind.empty()) kinds.insert(one.machine_kind);
    }
    const std::string of = joined({errors.begin(), errors.end()}, ", "), on = joined({kinds.begin(), kinds.end()}, ", ");
    return of.empty() ? "" : "limits of " + of + (on.empty() ? "" : " on " + on);
}

/// What a file holds, in one line.
std::string content(const Facts& facts) {
    const document::Document& document = facts.document;
    std::vector<std::string> parts;
    if (document.job.laboratory) parts.push_back(labelled("laboratory", document.job.laboratory->name));
    if (document.machine)
        parts.push_back("machine " + joined({document.machine->maker, document.machine->model, document.machine->kind,
                                             labelled("serial", document.machine->serial)},
                                            ", "));
    parts.push_back(if_any(document.instruments.size(), "instrument", "instruments"));
    parts.push_back(if_any(document.uncertainty.contributors.size(), "contributor", "contributors"));
    parts.push_back(limits_words(facts.limits));
    const std::string text = joined(parts, "; ");
    return text.empty() ? "settings" : text;
}

enum class Standing { Expired, Expiring, NotYet, Unknown, Valid };

struct Judged {
    Standing standing;
    std::string words;
};

Judged judge(const Instrument& instrument, const std::optional<input::IsoDate>& on) {
    const auto calibrated = input::iso_date(instrument.calibrated), due = input::iso_date(instrument.due);
    if (!due) return {Standing::Unknown, "no due date"};
    if (!on) return {Standing::Valid, ""};
    const auto days = due->days() - on->days();
    if (days < 0) return {Standing::Expired, "OUT OF DATE"};
    if (calibrated && calibrated->days() > on->days()) return {Standing::NotYet, "not calibrated yet"};
    if (days <= days_before_due)
        return {Standing::Expiring, days == 0 ? "EXPIRES ON THIS DAY" : fmt::format("EXPIRES IN {} {}", days, days == 1 ? "DAY" : "DAYS")};
    return {Standing::Valid, fmt::format("{} days", days)};
}

struct Listed {
    const Instrument* instrument;
    const std::string* file;
    Judged judged;
};

std::string line(const Listed& one) {
    const Instrument& at = *one.instrument;
    const std::string what = joined({at.kind, labelled("serial", at.serial), labelled("certificate", at.certificate)}, ", ");
    return fmt::format("  {:10}  {:19}  {}{}  [{}]\n", printable(at.due.substr(0, 10)), one.judged.words, printable(at.id),
                       what.empty() ? "" : ": " + printable(what), printable(*one.file));
}

std::string summary(const std::vector<Listed>& all) {
    const auto count = [&](Standing standing) {
        return static_cast<std::size_t>(std::ranges::count_if(all, [&](const Listed& one) { return one.judged.standing == standing; }));
    };
    const std::string soon = fmt::format(" within {} days", days_before_due);
    const std::string text =
        joined({if_any(count(Standing::Expired), "certificate is out of date", "certificates are out of date"),
                if_any(count(Standing::Expiring), "certificate expires" + soon, "certificates expire" + soon),
                if_any(count(Standing::NotYet), "instrument is not calibrated yet", "instruments are not calibrated yet"),
                if_any(count(Standing::Unknown), "instrument has no due date", "instruments have no due date")},
               "; ");
    return (text.empty() ? fmt::format("No certificate expires within {} days", days_before_due) : text) + ".\n";
}

}  // namespace

bool says_facts(const std::string& bytes) {
    try {
        const input::Json json = input::read_json(bytes, "");
        const input::Value* const format = json.root.member("format");
        return format != nullptr && format->is(input::JsonKind::String) && format->text == document::facts_format;
    } catch (const input::InputRejected&) { return bytes.find(document::facts_format) != std::string::npos; }
}

std::string facts_listing(const std::vector<FactsFile>& files, const std::optional<input::IsoDate>& on) {
    if (auto problems = faults_of(files); !problems.empty()) throw input::InputRejected(std::move(problems));
    std::vector<Facts> all;
    all.reserve(files.size());
    for (const FactsFile& file : files) all.push_back(document::read_facts(file.bytes, file.path, file.read_side_file));
    std::string text;
    std::vector<Listed> listed;
    for (std::size_t place = 0; place < files.size(); ++place) {
        text += fmt::format("{}: {}\n", printable(files[place].name), printable(content(all[place])));
        for (const Instrument& instrument : all[place].document.instruments)
            listed.push_back({&instrument, &files[place].name, judge(instrument, on)});
    }
    if (listed.empty()) return text;
    // Without a date last: nobody knows when it expires.
    std::ranges::stable_sort(listed, {},
                             [](const Listed& one) { return std::pair(one.instrument->due.empty(), one.instrument->due.substr(0, 10)); });
    text += "Instruments, by the day on which their certificates expire:\n";
    for (const Listed& one : listed) text += line(one);
    return text + (on ? summary(listed) : "Give --on DATE to see what is out of date on that day.\n");
}

}  // namespace wayfolio::gather
