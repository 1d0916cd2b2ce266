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
    const int decimals = result_decimals(shown, std::nullopt, entry.expanded);
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

/// One entry with a simulation: U, both intervals, what U covers of the trials, and whether they agree.
std::vector<Text> simulated_row(const SeriesView& view, const ParameterUncertainty& entry, const evaluate::MonteCarloResult& made) {
    const Shown& shown = view.shown;
    const int decimals = result_decimals(shown, std::nullopt, made.expanded) + 1;
    const auto number = [&](const Deviation& of) { return number_of(shown, of, decimals); };
    const Deviation value = *value_of_parameter(view.evaluation, entry.parameter);
    constexpr double percent = 100;
    return {Text(series_name(view.series) + ", ").symbol(entry.parameter).plain(" / " + std::string(shown.unit.symbol)),
            Text(number(made.expanded)),
            Text(number(value - made.expanded) + " to " + number(value + made.expanded)),
            Text(number(made.low) + " to " + number(made.high)),
            Text(number(made.shift)),
            Text(number_of(shown, made.tolerance, units::decimals_for_uncertainty(made.tolerance.in(shown.unit)))),
            Text(with_unit(units::number(percent * made.covered, 1, shown.style), "%")),
            made.agrees                                                  ? Text("yes")
            : made.printed == evaluate::MonteCarloResult::Printed::Wider ? Text("no, wider")
                                                                         : Text().strong("no, narrower")};
}

std::string agreement_words(std::size_t apart, std::size_t all) {
    if (apart == 0) return "Every interval agrees at both ends.";
    return capitalised(count_word(apart)) + " of " + count_word(all) + (all == 1 ? " interval does" : " intervals do") +
           " not agree: wider than the simulated one is on the safe side; narrower means that U covers less than is said.";
}

/// Why what could have been simulated was not, once for each series and reason.
std::vector<std::string> reasons_against(const Subject& subject) {
    std::vector<std::string> reasons;
    for (const SeriesView& view : subject.views)
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty) {
            if (entry.series != view.series.id || !entry.monte_carlo || direction_of(entry.parameter)) continue;
            if (const auto* why = std::get_if<evaluate::NotEvaluated>(&*entry.monte_carlo))
                add_once(reasons, "Not simulated, " + series_title(subject.document, view.series) + ": " + why->reason + ".");
        }
    return reasons;
}

/// One value with what scatter adds to it, and between what it lies.
std::vector<Text> scatter_row(const Subject& subject, const SeriesView& view, const ParameterUncertainty& entry) {
    const Shown& shown = view.shown;
    const Deviation value = *value_of_parameter(view.evaluation, entry.parameter);
    const auto number = [&](const Deviation& of) { return Text(number_of(shown, of, result_decimals(shown, value, entry.expanded))); };
    return {Text(series_title(subject.document, view.series)),
            Text(parameter_name(view, entry)),
            number(value),
            number(entry.expanded),
            number(entry.interval->bias),
            number(entry.interval->low),
            number(entry.interval->high)};
}

}  // namespace

std::optional<Section> other_uncertainties(const Subject& subject, const std::vector<const ParameterUncertainty*>& shown_whole) {
    PlainTable table{.columns = {
        {"Quantity", 0.28}, {"parameter", 0.2}, {"u", 0.09, numbers}, {"ν", 0.07, numbers}, {"k", 0.07, numbers},
        {"U", 0.13, numbers}, {"source", 0.16}}};
    const auto answering = answering_series(subject);
    for (const SeriesView& view : subject.views) {
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
        if (entry.axes) table.rows.push_back(uncertainty_row(squareness_name(*entry.axes), "squareness", entry, squareness_shown(subject)));
    if (table.rows.empty()) return std::nullopt;
    return Section{.heading = shown_whole.empty() ? "Uncertainties" : "Other uncertainties", .parts = {table}};
}

std::optional<Section> second_opinion(const Subject& subject) {
    PlainTable table{.columns = {
        {"Parameter", 0.18}, {"U", 0.08, numbers}, {"interval, first order", 0.19, numbers}, {"interval, simulated", 0.18, numbers},
        {"shift", 0.08, numbers}, {"δ", 0.08, numbers}, {"covered", 0.09, numbers}, {"agrees", 0.12}}};
    std::size_t apart = 0;
    const evaluate::MonteCarloResult* any = nullptr;
    for (const SeriesView& view : subject.views)
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty) {
            const auto* made = entry.monte_carlo ? evaluate::value_of(*entry.monte_carlo) : nullptr;
            if (entry.series != view.series.id || !made) continue;
            any = made;
            apart += made->agrees ? 0 : 1;
            table.rows.push_back(simulated_row(view, entry, *made));
        }
    const auto reasons = reasons_against(subject);
    if (!any && reasons.empty()) return std::nullopt;
    Section section{.heading = "Monte Carlo validation"};
    if (any) {
        section.parts = {table};
        section.parts.emplace_back(
            Paragraph{Text(agreement_words(apart, table.rows.size()) + " Printed with the results, and used for the decisions, is the "
                                                                       "first-order value in either case.")});
        section.parts.emplace_back(Paragraph{marked(
            "Propagation of the declared distributions (JCGM 101:2008) with " +
            units::number(static_cast<double>(any->trials), 0, style_of(subject)) + " trials, seed " + std::to_string(any->seed) +
            ", over the lengths of the first-order *U*. Noise on measured means counts twice in a maximum: the simulated interval is "
            "therefore moved back by the shift, which is mean less value, and only its spread counts. Both ends must agree within "
            "δ, half a unit of the second digit of *u*; covered is the share of the trials within *U* (clauses 7.9.2 and 8, in our "
            "own words).")});
    }
    for (const std::string& reason : reasons) section.parts.emplace_back(Paragraph{Text(reason)});
    return section;
}

std::optional<Section> scatter_section(const Subject& subject) {
    PlainTable table{.columns = {
        {"Quantity", 0.26}, {"parameter", 0.2}, {"value", 0.1, numbers}, {"U", 0.1, numbers}, {"up to", 0.1, numbers},
        {"from", 0.12, numbers}, {"to", 0.12, numbers}}};
    std::vector<std::string> reasons;
    for (const SeriesView& view : answering_series(subject))
        for (const ParameterUncertainty& entry : subject.evaluation.uncertainty) {
            const auto* parameter = entry.series == view.series.id ? evaluate::find_parameter(view.evaluation, entry.parameter) : nullptr;
            if (!parameter || !parameter->scatter_bias) continue;
            if (const auto* why = std::get_if<evaluate::NotEvaluated>(&*parameter->scatter_bias))
                add_once(reasons, "Not evaluated, " + series_title(subject.document, view.series) + ": " + why->reason + ".");
            if (entry.interval && entry.interval->stated) table.rows.push_back(scatter_row(subject, view, entry));
        }
    if (table.rows.empty() && reasons.empty()) return std::nullopt;
    Section section{.heading = "Bias of ranges", .parts = {}, .anchor = scatter_anchor};
    if (!table.rows.empty()) {
        section.parts = {table};
        section.parts.emplace_back(Paragraph{marked(
            "A range is built of its largest and smallest mean. Some of both is luck, and luck only makes a range larger. The column "
            "“up to” is how much, from the standard deviation of these readings; the true value lies between “from” and “to” with "
            "95\u202f%, *U* counted too. The value itself stays as its standard defines it.")});
    }
    for (const std::string& reason : reasons) section.parts.emplace_back(Paragraph{Text(reason)});
    return section;
}

}  // namespace wayfolio::report
