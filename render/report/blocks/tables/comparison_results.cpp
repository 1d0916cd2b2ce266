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
               decision.axes == change.axes;
    });
    return found == now.evaluation.decisions.end() ? nullptr : &*found;
}

/// "Outside, now undecided", "Inside, as before": quiet where nothing changed.
Text verdict_before_and_now(const ParameterChange& change, const evaluate::Decision* decision, const Comparison& changes) {
    const std::string now(evaluate::word(evaluate::standing_of(decision)));
    const auto verdict = std::ranges::find_if(changes.verdicts, [&](const compare::VerdictChange& one) {
        return one.series == change.series && (one.parameter == change.parameter || one.parameter == change.name) && !change.at_tool_point;
    });
    if (verdict != changes.verdicts.end())
        return Text().strong(std::string(evaluate::word(verdict->was)) + ", now " + uncapitalised(now));
    return Text().quiet(decision ? now + ", as before" : now);
}

}  // namespace

std::optional<Section> headline_changes_section(const Subject& now, const Comparison& changes) {
    PlainTable table{.columns = {
        {"Result", 0.32}, {"old", 0.1, numbers}, {"new", 0.1, numbers}, {"change", 0.1, numbers}, {"U new", 0.1, numbers},
        {"limit", 0.08, numbers}, {"Verdict old, new", 0.2}}};
    for (const ParameterChange& change : changes.parameters) {
        const SeriesView* view = find_view(now.views, change.series);
        if (!view || change.at_tool_point) continue;
        const auto* decision = decision_on(now, change);
        if (!decision && change.parameter != headline_parameter(view->series, view->evaluation)) continue;
        const ChangeNumbers numbers = change_numbers(change, view->shown);
        const std::string symbol = parameter_symbol(change.name);
        std::string name = series_title(now.document, view->series);
        if (change.length_mm) name += ", over " + length_text(view->shown, *change.length_mm);
        else if (!symbol.empty()) name += ", " + symbol + (change.name == symbol ? "" : " " + change.name.substr(symbol.size() + 1));
        name += " / " + std::string(view->shown.unit.symbol);
        const bool differs = change.differs();
        const auto cell = [&](const std::string& words) { return differs ? Text(words) : Text().quiet(words); };
        table.rows.push_back({cell(name), cell(numbers.was), differs ? Text().strong(numbers.now) : cell(numbers.now), cell(numbers.change),
                              cell(numbers.U_now), cell(decision ? limit_number(view->shown, decision->limit) : std::string(no_value)),
                              verdict_before_and_now(change, decision, changes)});
    }
    if (table.rows.empty()) return std::nullopt;
    return Section{.heading = "What it did to the results", .parts = {table}};
}

}  // namespace wayfolio::report
