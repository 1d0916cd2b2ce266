#include "report/method_words.hpp"

#include "report/method_formulas.hpp"
#include "report/names.hpp"
#include "report/verdicts.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::report {
namespace {

std::string number_text(const Subject& subject, double value, int decimals) { return units::number(value, decimals, {subject.layout.decimal_mark}); }

Text check_verdict(const results::SetupCheck& check) {
    if (check.done) return *check.done ? Text("done") : Text().strong("not done");
    if (!check.reading) return Text().quiet("no reading");
    if (check.at_most) return *check.reading <= *check.at_most ? Text("inside") : Text().strong("outside");
    if (check.at_least) return *check.reading >= *check.at_least ? Text("inside") : Text().strong("outside");
    return Text().quiet("no limit");
}

/// Numbers as the document writes them, file spellings as signs.
std::string plain_number(const Subject& subject, double value) {
    std::string text = units::shortest(value);
    if (text.starts_with('-')) text.replace(0, 1, units::minus_sign);
    std::ranges::replace(text, '.', subject.layout.decimal_mark);
    return text;
}

std::string printed_unit(const std::string& spelling) {
    if (spelling == "percent") return "%";
    const auto unit = units::deviation_unit(spelling);
    return unit ? std::string(unit->symbol) : spelling;
}

}  // namespace

std::vector<Section> method_sections(const Subject& subject) { return {readings_method(subject), formulas(subject)}; }

std::vector<Section> basis_sections(const Subject& subject) { return {sources(subject), versions(subject)}; }

Section decision_section(const Subject& subject) {
    const auto rule = subject.document.evaluation.decision_rule.value_or(results::DecisionRule::Simple);
    Section section{.heading = "Decision rule: " + rule_words(rule), .parts = {Paragraph{marked(rule_explained(rule))}}};
    if (!subject.document.evaluation.decision_rule)
        section.parts.emplace_back(Paragraph{Text("The document names no rule; simple acceptance is used and said so with every verdict.")});
    return section;
}

PlainTable setup_checks(const Subject& subject) {
    PlainTable table{.title = "", .heads = {"Check", "reading", "limit", "verdict", "basis"}, .widths = {0.34, 0.16, 0.18, 0.12, 0.2}, .numeric = {false, false, false, false, false}, .rows = {}};
    for (const auto& check : subject.document.setup->checks) {
        const auto with = [&](double value) { return check.unit.empty() ? plain_number(subject, value) : with_unit(plain_number(subject, value), printed_unit(check.unit)); };
        std::string name = capitalised(check.name) + (check.axis.empty() ? "" : ", " + check.axis);
        if (check.position) name += " at " + plain_number(subject, *check.position);
        const std::string limit = check.at_most ? "at most " + with(*check.at_most) : check.at_least ? "at least " + with(*check.at_least) : "\u2013";
        std::string basis = check.basis;
        if (basis == "common practice") basis += ", no source";
        table.rows.push_back({Text(name), Text(check.reading ? with(*check.reading) : "\u2013"), Text(limit), check_verdict(check), Text(basis)});
    }
    return table;
}

PlainTable environment_table(const Subject& subject) {
    struct Range {
        double low, high, first, last;
        std::size_t count = 0;
        void add(double value) {
            if (count++ == 0) low = high = first = value;
            low = std::min(low, value);
            high = std::max(high, value);
            last = value;
        }
    };
    std::vector<std::pair<std::string, Range>> ranges;
    const auto add = [&](const std::string& name, const std::optional<double>& value) {
        if (!value) return;
        auto found = std::ranges::find(ranges, name, &std::pair<std::string, Range>::first);
        if (found == ranges.end()) found = ranges.insert(ranges.end(), {name, Range{}});
        found->second.add(*value);
    };
    for (const auto& sample : subject.document.environment->samples) {
        add("Air / °C", sample.air_C);
        add("Pressure / hPa", sample.pressure_hPa);
        add("Humidity / %", sample.humidity_percent);
        for (const auto& [sensor, value] : sample.machine_C) add(sensor + " / °C", value);
    }
    PlainTable table{.title = "", .heads = {"Quantity", "first", "last", "lowest", "highest", "samples"}, .widths = {0.35, 0.13, 0.13, 0.13, 0.13, 0.13},
                     .numeric = {false, true, true, true, true, true}, .rows = {}};
    for (const auto& [name, range] : ranges) {
        const auto cell = [&](double value) { return Text(number_text(subject, value, name.starts_with("Humidity") ? 0 : name.starts_with("Pressure") ? 1 : 2)); };
        table.rows.push_back({Text(name), cell(range.first), cell(range.last), cell(range.low), cell(range.high), Text(std::to_string(range.count))});
    }
    return table;
}

}  // namespace wayfolio::report
