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

}  // namespace

std::optional<Section> headline_changes_section(const Subject& now, const Comparison& changes) {
    PlainTable table{.columns = {
        {"Result", 0.27}, {"old", 0.065, numbers}, {"new", 0.065, numbers}, {"change", 0.08, numbers}, {"U new", 0.07, numbers},
        {"limit", 0.06, numbers}, {"against its limit", 0.2, Cells::Gauges}, {"Verdict old, new", 0.19}}};
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
        const compare::VerdictChange* verdict = verdict_change(change, changes);
        const bool differs = change.differs() || verdict;
        const auto cell = [&](const std::string& words) { return differs ? Text(words) : Text().quiet(words); };
        table.rows.push_back({cell(name), cell(numbers.was), differs ? Text().strong(numbers.now) : cell(numbers.now), cell(numbers.change),
                              cell(numbers.U_now), cell(decision ? limit_number(view->shown, decision->limit) : std::string(no_value)),
                              Text(), verdict_before_and_now(verdict, decision)});
        table.gauges.push_back(gauge_of(change, decision, view->shown, differs));
    }
    if (table.rows.empty()) return std::nullopt;
    const bool moved = std::ranges::any_of(table.gauges, [](const auto& gauge) { return gauge && gauge->was_of_limit; });
    Section section{.heading = "What it did to the results", .parts = {std::move(table)}};
    if (moved)
        section.parts.emplace_back(Paragraph{Text("Small ring: where the value stood before, against the limit of now. Grey rows: nothing "
                                                  "changed.")});
    return section;
}

}  // namespace wayfolio::report
