#include "report/blocks/tables/tables.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::ParameterUncertainty;

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

}  // namespace

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

}  // namespace wayfolio::report
