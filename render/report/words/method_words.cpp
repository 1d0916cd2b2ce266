#include "report/words/method_words.hpp"

#include "report/words/method_formulas.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <map>

namespace wayfolio::report {
namespace {

std::string number_text(const Subject& subject, double value, int decimals) { return units::number(value, decimals, {subject.layout.decimal_mark}); }

}  // namespace

std::vector<Section> method_sections(const Subject& subject) { return {readings_method(subject), formulas(subject)}; }

std::vector<Section> basis_sections(const Subject& subject) { return {sources(subject), versions(subject)}; }

Section decision_section(const Subject& subject) {
    const auto rule = subject.document.evaluation.decision_rule.value_or(document::DecisionRule::Simple);
    Section section{.heading = "Decision rule: " + rule_words(rule), .parts = {Paragraph{marked(rule_explained(rule))}}};
    if (!subject.document.evaluation.decision_rule)
        section.parts.emplace_back(Paragraph{Text("The document names no rule; simple acceptance is used and said so with every verdict.")});
    return section;
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
