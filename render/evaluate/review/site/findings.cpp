#include "evaluate/review/site/findings.hpp"

#include "evaluate/review/lacking.hpp"
#include "input/encoding.hpp"

#include <fmt/core.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>

namespace wayfolio::evaluate {

namespace {

std::string_view kind_in_words(SeriesKind kind) {
    switch (kind) {
        case SeriesKind::Positioning: return "positioning";
        case SeriesKind::Straightness: return "straightness";
        case SeriesKind::Angle: return "angle";
        case SeriesKind::AngleSteps: return "straightness by angle steps";
    }
    throw std::logic_error("a kind of series without a word");
}

SeriesFinding finding(const SeriesEvaluation& series) {
    SeriesFinding found{.id = series.id, .error = series.error.text(), .kind = series.kind, .source = series.source,
                        .evaluated = {}, .not_evaluated = {}, .unmet = {}};
    for (const Parameter& parameter : series.parameters) {
        if (const auto* reason = std::get_if<NotEvaluated>(&parameter.value))
            found.not_evaluated.emplace_back(parameter.name, reason->reason);
        else
            found.evaluated.push_back(parameter.name);
    }
    for (const Condition& condition : series.conditions)
        if (condition.holds != std::optional(true)) found.unmet.push_back(condition);
    return found;
}

std::string count(std::size_t number, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", number, number == 1 ? one : many);
}

/// Parameters that are missing for one reason share a line.
std::string reasons_text(const SeriesFinding& series) {
    std::vector<std::pair<std::string, std::vector<std::string>>> by_reason;
    for (const auto& [name, reason] : series.not_evaluated) {
        auto known = std::find_if(by_reason.begin(), by_reason.end(),
                                  [&reason = reason](const auto& entry) { return entry.first == reason; });
        if (known == by_reason.end()) known = by_reason.insert(known, {reason, {}});
        known->second.push_back(name);
    }
    std::string text;
    for (const auto& [reason, names] : by_reason) text += fmt::format("    not evaluated: {} ({})\n", fmt::join(names, ", "), reason);
    return text;
}

std::string support_text(const SeriesFinding& series) {
    std::string text = fmt::format("  {}: {} {}{}\n", series.id, series.error, kind_in_words(series.kind),
                                   series.source == Source::Stated ? ", as stated, not recomputed" : "");
    if (!series.evaluated.empty()) text += fmt::format("    evaluated: {}\n", fmt::join(series.evaluated, ", "));
    text += reasons_text(series);
    for (const Condition& condition : series.unmet)
        text += fmt::format("    condition {}: {}\n", condition.holds ? "not met" : "open", condition.text);
    return text;
}

std::string lacking_text(const std::vector<Lack>& lacking) {
    std::vector<std::string> purposes;
    for (const Lack& lack : lacking)
        if (std::find(purposes.begin(), purposes.end(), lack.purpose) == purposes.end()) purposes.push_back(lack.purpose);
    std::string text;
    for (const std::string& purpose : purposes) {
        std::vector<std::string> lines;
        for (const Lack& lack : lacking)
            if (lack.purpose == purpose) lines.push_back(fmt::format("{} ({}) [{}]", lack.what, lack.pointer, word(code_of(lack))));
        text += fmt::format("  for {}:{}{}\n", purpose, lines.size() == 1 ? " " : "\n    ", fmt::join(lines, "\n    "));
    }
    return text;
}

bool is_missing_entry(FindingCode code) {
    return code == FindingCode::MissingForAccreditation || code == FindingCode::MissingForTestReport ||
           code == FindingCode::MissingForDecision || code == FindingCode::MissingForUncertainty;
}

/// What is missing in the document already stands in its own list.
std::string before_leaving_text(const std::vector<BeforeLeaving>& lines) {
    std::string machine, desk;
    for (const BeforeLeaving& line : lines) {
        if (is_missing_entry(line.code)) continue;
        (at_machine(line.code) ? machine : desk) +=
            fmt::format("  {} [{}]\n    where: {}\n    basis: {}\n    do: {}\n", line.what, word(line.code), line.where,
                        line.how_sure, line.act);
    }
    return (machine.empty() ? "" : "Before leaving the machine:\n" + machine) + (desk.empty() ? "" : "At the desk:\n" + desk);
}

}  // namespace

Findings findings(const document::Document& document, const Evaluation& evaluation) {
    Findings found{.file = document.file, .faults = {}, .warnings = evaluation.warnings, .lacking = evaluation.lacking, .supports = {}};
    for (const SeriesEvaluation& series : evaluation.series) found.supports.push_back(finding(series));
    found.before_leaving = before_leaving(document, evaluation);
    return found;
}

std::string findings_text(const Findings& findings) {
    std::string text;
    for (const input::Problem& fault : findings.faults) text += input::to_text(fault) + "\n";
    if (!findings.warnings.empty()) text += "Warnings:\n";
    for (const Warning& warning : findings.warnings)
        text += fmt::format("  {}: {} [{}]\n", warning.pointer, warning.text, word(warning.code));
    if (!findings.supports.empty()) text += "What the data support:\n";
    for (const SeriesFinding& series : findings.supports) text += support_text(series);
    if (!findings.lacking.empty()) text += "Missing in the document:\n" + lacking_text(findings.lacking);
    if (findings.faults.empty()) text += before_leaving_text(findings.before_leaving);
    const bool capped = findings.faults.size() >= input::InputRejected::cap;
    text += fmt::format("{}: {}{}", input::printable(findings.file), count(findings.faults.size(), "fault", "faults"),
                        capped ? " (only these are listed)" : "");
    if (findings.faults.empty())
        text += fmt::format(", {}, {} missing", count(findings.warnings.size(), "warning", "warnings"),
                            count(findings.lacking.size(), "entry", "entries"));
    return text + "\n" + (findings.faults.empty() ? last_line(findings.before_leaving) + "\n" : "");
}

}  // namespace wayfolio::evaluate
