#include "report/blocks/tables/tables.hpp"

#include "evaluate/numbers/budget.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::ParameterUncertainty;

constexpr double enough_coverage = 0.945;  // rounds to 95 %

bool covers_too_little(const ParameterUncertainty& entry) {
    return entry.source != evaluate::Source::Stated && !entry.raised_to_capability && entry.coverage < enough_coverage;
}

/// "Positioning EXX, A", "EYX over 300 mm"
Text row_name(const Subject& subject, const UncertainResult& result) {
    if (!result.view) return Text("Squareness " + (*result.entry->axes)[0] + ", " + (*result.entry->axes)[1]);
    const auto& error = result.view->series.error;
    const auto& entry = *result.entry;
    const std::string symbol = parameter_symbol(entry.parameter), state = other_state_suffix(subject.document, result.view->series.state);
    if (entry.length_mm) return Text(error.text() + " over " + length_text(result.shown, *entry.length_mm) + state);
    if (entry.parameter == "B_mean") return Text("Mean reversal " + error.text() + state);
    const std::string kind = error.kind() == document::ErrorKind::Straightness ? "Straightness" : quantity_name(subject.document, error);
    Text name(kind + " " + error.text());
    if (!symbol.empty()) name.plain(", ").symbol(symbol);
    if (entry.parameter.ends_with("_mean")) name.plain(symbol.empty() ? " of the mean" : " mean");
    if (const auto way = direction_of(entry.parameter)) name.plain(", " + std::string(word(*way)));
    return name.plain(state);
}

/// The limit on whose scale a result is drawn: its own, else that of the result that speaks for the same series.
std::optional<double> scale_limit(const Subject& subject, const UncertainResult& result) {
    const auto* decision = result.decision;
    if (!decision && result.view) {
        const std::string headline = headline_parameter(result.view->series, result.view->evaluation);
        decision = find_decision(subject.evaluation, result.view->series.id, headline);
    }
    if (!decision) return std::nullopt;
    const double limit = decision->limit.in(result.shown.unit);
    return limit > 0 ? std::optional(limit) : std::nullopt;
}

std::string heard(const UncertainResult& result, const UncertaintyRow& row) {
    const int decimals = result.decimals();
    std::string words = row.name.words() + ": ";
    if (result.value) words += number_of(result.shown, abs(*result.value), decimals) + ", ";
    words += "U " + value_text(result.shown, result.entry->expanded, decimals);
    if (result.decision) words += ", limit " + limit_number(result.shown, result.decision->limit);
    std::vector<std::string> parts;
    for (const UncertaintyPart& part : row.parts)
        parts.push_back(part_words(part.of) + " " + with_unit(share_text(part.share, result.shown.style), "%"));
    if (!parts.empty()) words += "; U is " + listed(parts);
    return words + "; " + row.verdict.word.words() + ".";
}

UncertaintyRow row_of_result(const Subject& subject, const UncertainResult& result) {
    const ParameterUncertainty& entry = *result.entry;
    const Shown& shown = result.shown;
    const bool stated = entry.source == evaluate::Source::Stated;
    const int decimals = result.decimals();
    UncertaintyRow row{.name = row_name(subject, result), .has_limit = result.decision != nullptr, .parts = parts_of(entry)};
    if (const auto limit = scale_limit(subject, result)) {
        if (result.value) row.value_of_limit = abs(*result.value).in(shown.unit) / *limit;
        row.U_of_limit = entry.expanded.in(shown.unit) / *limit;
    }
    if (row.parts.empty()) row.not_divided = stated ? Text("stated") : entry.raised_to_capability ? Text("CMC") : Text(no_value);
    row.u = Text(entry.standard ? number_of(shown, *entry.standard, decimals + 1) : no_value);
    constexpr double as_good_as_all = 999;
    row.freedom = Text(stated                                            ? std::string(no_value)
                       : entry.degrees_of_freedom.value_or(0) > as_good_as_all ? ">" + units::number(as_good_as_all, 0, shown.style)
                                                                         : freedom_text(entry.degrees_of_freedom, shown.style));
    row.k = Text(units::number(entry.coverage_factor, 2, shown.style));
    const std::string coverage = with_unit(units::number(100 * entry.coverage, 0, shown.style), "%");
    row.coverage = stated                     ? Text(no_value)
                   : covers_too_little(entry) ? Text().strong(coverage)
                                              : Text(coverage);
    row.U = Text().strong(number_of(shown, entry.expanded, decimals));
    row.unit = std::string(shown.unit.symbol);
    row.verdict = verdict_of(result.decision, shown);
    row.words = heard(result, row);
    return row;
}

/// "k = 2 covers less than 95 % of R (EXX); it needs 2.31": what the bold figures ask for.
std::optional<Text> coverage_note(const std::vector<UncertainResult>& results) {
    Text note("Coverage: of ");
    note.symbol("U").plain(" with ").symbol("ν").plain(" effective degrees of freedom; under 95\u202f% bold. For 95\u202f% ");
    std::vector<Text> needs;
    for (const UncertainResult& result : results)
        if (covers_too_little(*result.entry))
            needs.push_back(sentence_name(result).plain(
                " " + units::number(evaluate::coverage_factor(result.entry->degrees_of_freedom, 0.95), 2, result.shown.style)));
    if (needs.empty()) return std::nullopt;
    note.symbol("k").plain(needs.size() == 1 ? " would have to be, of " : " would have to be: ");
    for (std::size_t i = 0; i < needs.size(); ++i) note.plain(i == 0 ? "" : i + 1 == needs.size() ? " and " : ", ").append(needs[i]);
    return note.plain(".");
}

/// "A up to 1.9 (3.0 to 14.4)": what random variation adds to a range, and between what the true value lies.
std::optional<Text> scatter_note(const std::vector<UncertainResult>& results) {
    std::vector<Text> each;
    for (const UncertainResult& result : results) {
        const auto& interval = result.entry->interval;
        if (!interval || !interval->stated) continue;
        const auto number = [&](const Deviation& of) { return number_of(result.shown, of, result.decimals()); };
        each.push_back(sentence_name(result).plain(" by up to " + value_text(result.shown, interval->bias, result.decimals()) + " (" +
                                                   number(interval->low) + " to " + number(interval->high) + ")"));
    }
    if (each.empty()) return std::nullopt;
    Text note("Random variation alone makes ranges larger, never smaller. In parentheses, where the true value lies with 95\u202f%, ");
    note.symbol("U").plain(" counted too: ");
    for (std::size_t i = 0; i < each.size(); ++i) note.plain(i == 0 ? "" : "; ").append(each[i]);
    return note.plain(". The values themselves stay as their standards define them.");
}

void add_unknown_scatter(std::vector<Text>& notes, const Subject& subject, const std::vector<UncertainResult>& results) {
    std::vector<std::string> reasons;
    for (const UncertainResult& result : results) {
        const auto* parameter = result.view ? evaluate::find_parameter(result.view->evaluation, result.entry->parameter) : nullptr;
        if (!parameter || !parameter->scatter_bias) continue;
        if (const auto* why = std::get_if<evaluate::NotEvaluated>(&*parameter->scatter_bias))
            add_once(reasons, "What random variation adds to ranges is not evaluated, " +
                                  series_title(subject.document, result.view->series) + ": " + why->reason + ".");
    }
    for (const std::string& reason : reasons) notes.emplace_back(reason);
}

}  // namespace

std::vector<UncertaintyRow> uncertainty_rows(const Subject& subject, const std::vector<UncertainResult>& results) {
    std::vector<UncertaintyRow> rows;
    for (const UncertainResult& result : results) rows.push_back(row_of_result(subject, result));
    return rows;
}

std::vector<Text> uncertainty_rows_notes(const Subject& subject, const std::vector<UncertainResult>& results) {
    std::vector<Text> notes;
    if (auto coverage = coverage_note(results)) notes.push_back(*std::move(coverage));
    if (auto scatter = scatter_note(results)) notes.push_back(*std::move(scatter));
    add_unknown_scatter(notes, subject, results);
    const auto on_another = [&](const UncertainResult& one) { return !one.decision && scale_limit(subject, one) && one.value; };
    if (std::ranges::any_of(results, on_another))
        notes.emplace_back("Without a limit of its own a value is drawn on the scale of the limit for its series.");
    for (const UncertainResult& result : results)
        if (result.entry->raised_to_capability)
            notes.push_back(Text().symbol("U").plain(" of ").append(sentence_name(result)).plain(
                " is the calibration and measurement capability (CMC) that the laboratory states; the input quantities give less."));
    return notes;
}

}  // namespace wayfolio::report
