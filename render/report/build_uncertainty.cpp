#include "report/build_uncertainty.hpp"

#include "report/build_answer.hpp"
#include "report/names.hpp"
#include "report/verdicts.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::BudgetLine;
using evaluate::ParameterUncertainty;

std::string name_of(const SeriesView& view, const ParameterUncertainty& entry) {
    const std::string symbol = parameter_symbol(entry.parameter);
    return symbol == entry.parameter ? symbol : parameter_words(entry.parameter, view.evaluation.standard);
}

std::string freedom_text(const std::optional<double>& degrees, const units::NumberStyle& style) {
    return degrees ? units::number(std::floor(*degrees), 0, style) : "infinite";
}

std::string share_text(double share, const units::NumberStyle& style) {
    constexpr double rounds_to_none = 0.005;
    return share < rounds_to_none ? "<\u202f1" : units::number(100 * share, 0, style);
}

/// The series whose budget is shown whole: the worst verdict among the positioning series, else the first with a budget.
struct Chosen {
    const SeriesView* view = nullptr;
    const ParameterUncertainty* entry = nullptr;
};

Chosen chosen_budget(const Subject& subject, const std::vector<SeriesView>& views) {
    Chosen chosen;
    int worst = 0;
    for (const bool positioning : {true, false}) {
        for (const SeriesView& view : views) {
            if ((view.evaluation.kind == evaluate::SeriesKind::Positioning) != positioning) continue;
            const std::string headline = headline_parameter(view.series, view.evaluation);
            const auto* entry = evaluate::find_uncertainty(subject.evaluation, view.series.id, headline);
            if (!entry || entry->contributors.empty()) continue;
            const int severe = severity(find_decision(subject.evaluation, view.series.id, headline));
            if (!chosen.view || severe < worst) chosen = {&view, entry}, worst = severe;
        }
        if (chosen.view) break;
    }
    return chosen;
}

Section budget_section(const Chosen& chosen) {
    const auto& [view, entry] = chosen;
    const Shown& shown = view->shown;
    const int decimals = result_decimals(shown, entry->expanded) + 1;
    PlainTable table{.title = "", .heads = {"Contributor", "u / " + std::string(shown.unit.symbol), "share / %", "freedom", "Basis"},
                     .widths = {0.33, 0.1, 0.1, 0.1, 0.37}, .numeric = {false, true, true, true, false}, .rows = {}};
    auto lines = entry->contributors;
    std::ranges::stable_sort(lines, std::greater{}, &BudgetLine::share);
    for (const BudgetLine& line : lines) {
        table.rows.push_back({Text(capitalised(line.name)), Text(number_of(shown, abs(line.standard), decimals)), Text(share_text(line.share, shown.style)),
                              Text(freedom_text(line.degrees_of_freedom, shown.style)), Text(line.basis + (line.basis.empty() ? "" : "; ") + line.distribution)});
    }
    if (entry->standard)
        table.rows.push_back({Text().strong("Combined"), Text().strong(number_of(shown, *entry->standard, decimals)), Text("100"), Text(freedom_text(entry->degrees_of_freedom, shown.style)), Text()});
    Section section{.heading = "Budget of " + name_of(*view, *entry) + ", " + view->series.error.text() + state_suffix(view->series.state), .parts = {table}};
    section.parts.emplace_back(Paragraph{Text("Expanded: ").symbol("U").plain("\u00a0=\u00a0" + value_text(shown, entry->expanded, result_decimals(shown, entry->expanded)) + ", ")
        .symbol("k").plain("\u00a0=\u00a0" + units::number(entry->coverage_factor, 2, shown.style) + ", coverage about " + with_unit(units::number(100 * entry->coverage, 0, shown.style), "%") + ".")});
    for (const std::string& note : entry->notes) section.parts.emplace_back(Paragraph{Text(note)});
    return section;
}

std::optional<Section> others_section(const Subject& subject, const std::vector<SeriesView>& views, const Chosen& chosen) {
    PlainTable table{.title = "", .heads = {"Quantity", "parameter", "u", "freedom", "k", "U", "source"},
                     .widths = {0.26, 0.24, 0.09, 0.1, 0.08, 0.12, 0.11}, .numeric = {false, false, true, true, true, true, false}, .rows = {}};
    for (const SeriesView& view : views) {
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty) {
            // The slope is a result in another dimension; squareness belongs to two series.
            if (entry.series != view.series.id || &entry == chosen.entry || entry.axes || entry.unit.dimension != view.shown.unit.dimension) continue;
            const int decimals = result_decimals(view.shown, entry.expanded);
            std::string name = name_of(view, entry);
            if (entry.length_mm) name += " over " + with_unit(units::number(*entry.length_mm, 0, view.shown.style), "mm");
            const bool stated = entry.source == evaluate::Source::Stated;
            table.rows.push_back({Text(quantity_title(subject.document, view.series.error)), Text(name),
                                  Text(entry.standard ? number_of(view.shown, *entry.standard, decimals + 1) : "\u2013"),
                                  Text(stated ? "\u2013" : freedom_text(entry.degrees_of_freedom, view.shown.style)), Text(units::number(entry.coverage_factor, 2, view.shown.style)),
                                  Text(value_text(view.shown, entry.expanded, decimals)), Text(stated ? "as stated" : "computed")});
        }
    }
    if (table.rows.empty()) return std::nullopt;
    return Section{.heading = chosen.view ? "Other parameters" : "Stated uncertainties", .parts = {table}};
}

Text lead_of(const Chosen& chosen) {
    if (!chosen.entry) return Text("The uncertainties are as stated by the document and were not computed here.");
    const auto& [view, entry] = chosen;
    const auto largest = std::ranges::max_element(entry->contributors, {}, &BudgetLine::share);
    Text lead("The uncertainty of ");
    if (const std::string symbol = parameter_symbol(entry->parameter); symbol.empty()) lead.plain(view->series.error.text());
    else lead.symbol(symbol);
    lead.plain(" is " + value_text(view->shown, entry->expanded, result_decimals(view->shown, entry->expanded)) + "; " + largest->name + " makes ");
    return lead.plain(with_unit(share_text(largest->share, view->shown.style), "%") + " of its variance.");
}

}  // namespace

Sections uncertainty(const Subject& subject) {
    const auto views = answering_series(subject);
    const Chosen chosen = chosen_budget(subject, views);
    Sections made;
    made.opening = {.label = "Uncertainty", .anchor = "uncertainty", .lead = lead_of(chosen), .body = {}};
    if (chosen.entry) {
        made.opening.body = Text("Combined after the GUM (JCGM 100:2008); the propagation to ranges and maxima is derived here, parts of it from memory of the standards.");
        made.sections.push_back(budget_section(chosen));
    }
    if (auto others = others_section(subject, views, chosen)) made.sections.push_back(std::move(*others));
    return made;
}

}  // namespace wayfolio::report
