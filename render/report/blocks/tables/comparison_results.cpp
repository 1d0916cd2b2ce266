#include "report/blocks/tables/tables.hpp"

#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using compare::Comparison;
using compare::ParameterChange;

/// The decision of the new side on a result; nullptr where it has no limit.
const evaluate::Decision* decision_on(const Subject& now, const ParameterChange& change) {
    const auto found = std::ranges::find_if(now.evaluation.decisions, [&](const evaluate::Decision& decision) {
        return decision.series == change.series && decision.parameter == change.name && decision.length_mm == change.length_mm &&
               decision.axes == change.axes && (!change.line || !decision.reference_line || decision.reference_line == change.line);
    });
    return found == now.evaluation.decisions.end() ? nullptr : &*found;
}

/// The verdict that is another one now; nullptr where none changed.
const compare::VerdictChange* verdict_change(const ParameterChange& change, const Comparison& changes) {
    const auto found = std::ranges::find_if(changes.verdicts, [&](const compare::VerdictChange& one) {
        return one.series == change.series && (one.parameter == change.parameter || one.parameter == change.name) && !change.at_tool_point;
    });
    return found == changes.verdicts.end() ? nullptr : &*found;
}

/// "Outside, now undecided", "Inside, as before": quiet where nothing changed.
Text verdict_before_and_now(const compare::VerdictChange* verdict, const evaluate::Decision* decision) {
    const std::string now(evaluate::word(evaluate::standing_of(decision)));
    if (verdict) return Text().strong(std::string(evaluate::word(verdict->was)) + ", now " + uncapitalised(now));
    return Text().quiet(decision ? now + ", as before" : now);
}

/// Value and U of now on the scale of its limit of now, and where the value stood before on the same.
std::optional<CellGauge> gauge_of(const ParameterChange& change, const evaluate::Decision* decision, const Shown& shown, bool changed) {
    const double limit = decision ? decision->limit.in(shown.unit) : 0;
    if (!decision || !decision->value || !(limit > 0)) return std::nullopt;
    const auto percent = [](double of_limit) { return units::number(of_limit * 100, 0, {}) + "\u202f%"; };
    CellGauge gauge{.value_of_limit = judged_value(*decision).in(shown.unit) / limit, .U_of_limit = {}, .was_of_limit = {},
                    .standing = evaluate::standing_of(decision), .changed = changed, .words = {}};
    gauge.words = percent(gauge.value_of_limit) + " of the limit";
    if (decision->expanded) {
        gauge.U_of_limit = decision->expanded->in(shown.unit) / limit;
        gauge.words += ", U " + percent(*gauge.U_of_limit);
    }
    if (change.was && change.was->dimension() == shown.unit.dimension && change.differs()) {
        gauge.was_of_limit = abs(*change.was).in(shown.unit) / limit;
        gauge.words += ", before " + percent(*gauge.was_of_limit);
    }
    return gauge;
}

/// "1, 3": the numbers of the changes that moved a result; "together" where each alone does not, a dash where nothing moved it.
std::string because_of(const ParameterChange& change, const std::vector<compare::Cause>& causes) {
    const auto found = std::ranges::find_if(
        causes, [&](const compare::Cause& cause) { return cause.series == change.series && cause.parameter == change.parameter; });
    if (found == causes.end()) return no_value;
    if (found->changes.empty()) return "together";
    std::string numbers;
    for (const std::size_t place : found->changes) numbers += (numbers.empty() ? "" : ", ") + std::to_string(place + 1);
    return numbers;
}

/// With the causes where they are known; the curve of the limit then gives them room.
PlainTable headline_table(bool with_causes) {
    if (!with_causes)
        return {.columns = {{"Result", 0.27}, {"old", 0.065, numbers}, {"new", 0.065, numbers}, {"change", 0.08, numbers},
                            {"U new", 0.07, numbers}, {"limit", 0.06, numbers}, {"against its limit", 0.2, Cells::Gauges},
                            {"Verdict old, new", 0.19}}};
    return {.columns = {{"Result", 0.23}, {"old", 0.065, numbers}, {"new", 0.065, numbers}, {"change", 0.075, numbers},
                        {"U new", 0.065, numbers}, {"limit", 0.06, numbers}, {"against its limit", 0.15, Cells::Gauges},
                        {"because of", 0.105, numbers}, {"Verdict old, new", 0.185}}};
}

/// How to read the table.
std::string headline_note(const PlainTable& table, const Causes& causes) {
    const bool moved = std::ranges::any_of(table.gauges, [](const auto& gauge) { return gauge && gauge->was_of_limit; });
    std::string words;
    if (moved) words = "Small ring: where the value stood before, against the limit of now. Grey rows: nothing changed.";
    if (!causes || causes->empty()) return words;
    const bool together = std::ranges::any_of(*causes, [](const compare::Cause& cause) { return cause.changes.empty(); });
    return words + (words.empty() ? "" : " ") +
           "Because of: the numbered changes that each move the result when made alone, and together make it what it is now; evaluated, "
           "not judged." +
           (together ? " Together: only several of them at once do." : "");
}

}  // namespace

std::optional<Section> headline_changes_section(const Subject& now, const Comparison& changes, const Causes& causes) {
    PlainTable table = headline_table(causes.has_value());
    const bool one_state = std::ranges::all_of(
        now.views, [&](const SeriesView& view) { return view.evaluation.state == now.views.front().evaluation.state; });
    for (const ParameterChange& change : changes.parameters) {
        const SeriesView* view = find_view(now.views, change.series);
        if (!view || change.at_tool_point) continue;
        const auto* decision = decision_on(now, change);
        if (!decision && change.parameter != headline_parameter(view->series, view->evaluation)) continue;
        const ChangeNumbers numbers = change_numbers(change, view->shown);
        const std::string symbol = parameter_symbol(change.name);
        std::string name = one_state ? quantity_title(now.document, view->series.error) : series_title(now.document, view->series);
        if (change.length_mm) name += ", over " + length_text(view->shown, *change.length_mm);
        else if (!symbol.empty()) name += ", " + symbol + (change.name == symbol ? "" : " " + change.name.substr(symbol.size() + 1));
        name += " / " + std::string(view->shown.unit.symbol);
        const compare::VerdictChange* verdict = verdict_change(change, changes);
        const bool differs = change.differs() || verdict;
        const auto cell = [&](const std::string& words) { return differs ? Text(words) : Text().quiet(words); };
        std::vector<Text> row{cell(name), cell(numbers.was), differs ? Text().strong(numbers.now) : cell(numbers.now),
                              cell(numbers.change), cell(numbers.U_now),
                              cell(decision ? limit_number(view->shown, decision->limit) : std::string(no_value)), Text()};
        if (causes) row.push_back(cell(because_of(change, *causes)));
        row.push_back(verdict_before_and_now(verdict, decision));
        table.rows.push_back(std::move(row));
        table.gauges.push_back(gauge_of(change, decision, view->shown, differs));
    }
    if (table.rows.empty()) return std::nullopt;
    const std::string note = headline_note(table, causes);
    Section section{.heading = "What it did to the results", .parts = {std::move(table)}};
    if (!note.empty()) section.parts.emplace_back(Paragraph{Text(note)});
    return section;
}

}  // namespace wayfolio::report
