#include "evaluate/review/before_leaving.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

/// What the customer agreed to in place of the standard's test does not stand in the way.
bool is_agreed(const document::Document& document, const Condition& condition) {
    return !document.evaluation.agreed.empty() &&
           (condition.name == "one_approach_each_way" || condition.name == "long_axis_test");
}

void add_conditions(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (std::size_t i = 0; i < evaluation.series.size(); ++i)
        for (const Condition& condition : evaluation.series[i].conditions)
            if (condition.holds == false && !is_agreed(document, condition))
                lines.push_back({Concern::Conditions, condition.text,
                                 fmt::format("series {} (/series/{})", evaluation.series[i].id, i), "certain",
                                 "measure what is short, or agree on this test with the customer and say so"});
}

/// "date of issue, the customer and 3 more"
std::string named(const std::vector<std::string>& things) {
    constexpr std::size_t shown = 4;
    std::string text;
    for (std::size_t i = 0; i < std::min(things.size(), shown); ++i) text += (i == 0 ? "" : "; ") + things[i];
    if (things.size() > shown) text += fmt::format("; and {} more", things.size() - shown);
    return text;
}

void add_lacking(std::vector<BeforeLeaving>& lines, const Evaluation& evaluation) {
    // Clauses of one document share a line: "ISO/IEC 17025 7.8.2.1 j" counts for ISO/IEC 17025.
    const auto head = [](const std::string& purpose) {
        constexpr std::string_view clause = "ISO/IEC 17025";
        return purpose.starts_with(clause) ? std::string(clause) : purpose;
    };
    std::vector<std::pair<std::string, std::vector<const Lack*>>> purposes;
    for (const Lack& lack : evaluation.lacking) {
        auto known = std::find_if(purposes.begin(), purposes.end(), [&](const auto& p) { return p.first == head(lack.purpose); });
        if (known == purposes.end()) known = purposes.insert(purposes.end(), {head(lack.purpose), {}});
        known->second.push_back(&lack);
    }
    for (const auto& [purpose, lacks] : purposes) {
        std::vector<std::string> things;
        for (const Lack* lack : lacks) things.push_back(lack->what);
        lines.push_back({Concern::Papers, fmt::format("lacking for {}: {}", purpose, named(things)),
                         fmt::format("the document ({})", lacks.front()->pointer), "certain",
                         "note it down while you can still look at the machine's plate and ask the customer"});
    }
}

void add_refused(std::vector<BeforeLeaving>& lines, const Evaluation& evaluation) {
    for (std::size_t i = 0; i < evaluation.compensation.size(); ++i) {
        const auto& request = evaluation.compensation[i];
        if (!request.refused.empty())
            lines.push_back({Concern::Readings,
                             fmt::format("the data do not support the compensation asked for axis {}: {}", request.axis,
                                         request.refused.front()),
                             fmt::format("compensation request {} (/compensation/{})", i + 1, i), "certain",
                             "measure at the table's spacing over its range"});
    }
    for (const Decision& decision : evaluation.decisions)
        if (decision.outcome == Outcome::NotDecided)
            lines.push_back({Concern::Papers,
                             fmt::format("the limit on {} of series {} cannot be decided: {}", decision.parameter,
                                         decision.series, decision.reason),
                             fmt::format("series {}", decision.series), "certain", "measure or state what is missing"});
}

}  // namespace

void add_paper_concerns(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    add_conditions(lines, document, evaluation);
    add_refused(lines, evaluation);
    for (const Warning& warning : evaluation.warnings)
        if (warning.pointer.starts_with("/instruments/"))
            lines.push_back({Concern::Papers, warning.text, "instruments (" + warning.pointer + ")", "certain",
                             "use an instrument that is in date, or get its new certificate"});
    add_lacking(lines, evaluation);
}

}  // namespace wayfolio::evaluate
