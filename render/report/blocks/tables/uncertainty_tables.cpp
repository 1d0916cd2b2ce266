#include "report/blocks/tables/tables.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::ParameterUncertainty;

std::string parameter_name(const SeriesView& view, const ParameterUncertainty& entry) {
    const std::string symbol = parameter_symbol(entry.parameter);
    if (entry.parameter == "B_mean") return "B, mean";
    const auto approach = direction_of(entry.parameter);
    if (!approach) return symbol.empty() ? budget_parameter(view, entry) : symbol;
    const std::string of = view.evaluation.kind == evaluate::SeriesKind::Angle ? "angle" : "straightness";
    return (symbol.empty() ? of : symbol) + ", " + std::string(word(*approach));
}

std::vector<Text> uncertainty_row(const std::string& quantity, const std::string& parameter, const ParameterUncertainty& entry,
                                  const Shown& shown) {
    const int decimals = result_decimals(shown, entry.expanded);
    const bool stated = entry.source == evaluate::Source::Stated;
    std::string source = stated ? "as stated" : "computed";
    if (entry.raised_to_capability) source += ", raised to the capability";
    return {Text(quantity),
            Text(parameter),
            Text(entry.standard ? number_of(shown, *entry.standard, decimals + 1) : no_value),
            Text(stated ? no_value : freedom_text(entry.degrees_of_freedom, shown.style)),
            Text(units::number(entry.coverage_factor, 2, shown.style)),
            Text(value_text(shown, entry.expanded, decimals)),
            Text(source)};
}

/// One entry with a simulation: both standard uncertainties, both intervals, and whether they agree.
std::vector<Text> simulated_row(const SeriesView& view, const ParameterUncertainty& entry, const Deviation& value) {
    const Shown& shown = view.shown;
    const evaluate::MonteCarloResult& made = *entry.monte_carlo;
    const auto number = [&](const Deviation& of) { return number_of(shown, of, result_decimals(shown, entry.expanded) + 1); };
    const Deviation standard = entry.standard_at_setting_targets.value_or(*entry.standard);
    const Deviation expanded = entry.expanded_at_setting_targets.value_or(entry.expanded);
    return {Text(series_name(view.series) + ", ").symbol(entry.parameter).plain(" / " + std::string(shown.unit.symbol)),
            Text(number(standard)),
            Text(number(made.standard)),
            Text(number(value - expanded) + " to " + number(value + expanded)),
            Text(number(made.low) + " to " + number(made.high)),
            Text(number(made.bias)),
            Text(number_of(shown, made.tolerance, units::decimals_for_uncertainty(made.tolerance.in(shown.unit)))),
            made.agrees ? Text("yes") : Text().strong("no")};
}

std::string agreement_words(std::size_t apart, std::size_t all) {
    if (apart == 0) return "Every interval agrees at both ends.";
    return capitalised(count_word(apart)) + " of " + count_word(all) + (all == 1 ? " interval does" : " intervals do") +
           " not agree: ranges and maxima are built of extremes, for which first order is weak.";
}

}  // namespace

std::optional<Section> other_uncertainties(const Subject& subject, const std::vector<const ParameterUncertainty*>& shown_whole) {
    PlainTable table{.columns = {
        {"Quantity", 0.28}, {"parameter", 0.2}, {"u", 0.09, numbers}, {"ν", 0.07, numbers}, {"k", 0.07, numbers},
        {"U", 0.13, numbers}, {"source", 0.16}}};
    const auto answering = answering_series(subject);
    for (const SeriesView& view : series_views(subject)) {
        const bool now = find_view(answering, view.series.id) != nullptr;
        const auto columns = now ? matrix_columns(subject, view) : std::vector<const ParameterUncertainty*>{};
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty) {
            // The slope is a result in another dimension.
            if (entry.series != view.series.id || entry.axes || entry.unit.dimension != view.shown.unit.dimension) continue;
            if (std::ranges::find(shown_whole, &entry) != shown_whole.end() || std::ranges::find(columns, &entry) != columns.end())
                continue;
            if (!now && entry.parameter != headline_parameter(view.series, view.evaluation)) continue;
            table.rows.push_back(
                uncertainty_row(series_title(subject.document, view.series), parameter_name(view, entry), entry, view.shown));
        }
    }
    for (const ParameterUncertainty& entry : subject.evaluation.uncertainty)
        if (entry.axes)
            table.rows.push_back(uncertainty_row(squareness_name(*entry.axes), "squareness", entry, squareness_shown(subject.layout)));
    if (table.rows.empty()) return std::nullopt;
    return Section{.heading = shown_whole.empty() ? "Uncertainties" : "Other uncertainties", .parts = {table}};
}

std::optional<Section> second_opinion(const Subject& subject) {
    PlainTable table{.columns = {
        {"Parameter", 0.19}, {"u", 0.08, numbers}, {"u, simulated", 0.12, numbers},
        {"interval, first order", 0.19, numbers}, {"interval, simulated", 0.18, numbers}, {"shift", 0.08, numbers},
        {"δ", 0.08, numbers}, {"agrees", 0.08}}};
    std::size_t apart = 0;
    const evaluate::MonteCarloResult* any = nullptr;
    for (const SeriesView& view : series_views(subject)) {
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty) {
            const auto value = value_of_parameter(view.evaluation, entry.parameter);
            if (entry.series != view.series.id || !entry.monte_carlo || !entry.standard || !value) continue;
            any = &*entry.monte_carlo;
            apart += any->agrees ? 0 : 1;
            table.rows.push_back(simulated_row(view, entry, *value));
        }
    }
    if (!any) return std::nullopt;
    Section section{.heading = "Second opinion by Monte Carlo", .parts = {table}};
    section.parts.emplace_back(
        Paragraph{Text(agreement_words(apart, table.rows.size()) + " Printed with the results, and used for the decisions, is the "
                                                                   "first-order value in either case.")});
    section.parts.emplace_back(Paragraph{
        marked("Propagation of distributions (JCGM 101:2008) with " +
               units::number(static_cast<double>(any->trials), 0, style_of(subject)) + " trials, seed " + std::to_string(any->seed) +
               ", over the distance of the setting targets. Noise on measured means counts twice in a maximum: the simulated interval is "
               "therefore moved back by the shift, which is mean less value, and only its spread counts. Both ends must agree within δ, "
               "half a unit of the second digit of *u* (clauses 7.9.2 and 8, in our own words).")});
    return section;
}

}  // namespace wayfolio::report
