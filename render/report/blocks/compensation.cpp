#include "report/blocks/blocks.hpp"

#include "document/states.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::report {
namespace {

using evaluate::CompensationEvaluation;
using evaluate::Parameter;

/// What stands in the margin, of one direction where only that was measured. R is left out: a table does not touch it.
constexpr std::array shown_parameters{"A", "E", "M", "B", "B_mean"};

/// The series as the table is predicted to leave it: other means, the same standard deviations.
evaluate::SeriesEvaluation predicted_series(const evaluate::SeriesEvaluation& measured, const CompensationEvaluation& made) {
    evaluate::SeriesEvaluation predicted = measured;
    predicted.parameters = made.predicted;
    for (std::size_t i = 0; i < predicted.targets.size() && i < made.predicted_targets.size(); ++i) {
        for (const auto approach : document::both_approaches)
            predicted.targets[i].one_way[approach].mean = made.predicted_targets[i].means[approach];
        predicted.targets[i].mean = made.predicted_targets[i].mean;
    }
    return predicted;
}

/// Means alone, as both figures have them.
DeviationPlot means_only(DeviationPlot plot) {
    plot.excluded.clear();
    plot.trace.clear();
    plot.ticks.clear();
    plot.runs.clear();
    plot.brackets.clear();
    plot.bands = false;
    for (auto& target : plot.targets)
        for (const auto approach : document::both_approaches) target.one_way[approach].s.reset();
    return plot;
}

DeviationPlot predicted_plot(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted,
                             const CompensationEvaluation& made) {
    DeviationPlot plot = deviation_plot(subject.document, view.series, predicted, view.shown);
    const std::string alternative = "Predicted with the compensation table in use, not measured. " + plot.alternative;
    plot = means_only(std::move(plot));
    plot.series_id = "predicted-" + made.series;
    // Lines about one curve would show the other, which has another level, outside a limit that it keeps.
    plot.limit.reset();
    plot.alternative = alternative;
    return plot;
}

DeviationPlot measured_plot(const Subject& subject, const SeriesView& view, const CompensationEvaluation& made) {
    DeviationPlot plot = means_only(deviation_plot(subject.document, view.series, view.evaluation, view.shown));
    plot.series_id = "corrected-" + made.series;
    plot.limit.reset();
    plot.alternative =
        "The correction of each point with its sign turned, as steps over the means that it was made of. " + plot.alternative;
    return plot;
}

/// Each point holds from half way to the one before to half way to the next.
std::vector<CorrectionStep> steps_of(const evaluate::CompensationTable& table, const CompensationEvaluation& made) {
    std::vector<CorrectionStep> steps;
    const auto place = [&](std::size_t i) { return table.points[i].position.in(made.position_unit); };
    const auto half_way = [&](std::size_t i) { return Position((place(i) + place(i + 1)) / 2, made.position_unit); };
    for (std::size_t i = 0; i < table.points.size(); ++i) {
        const bool first = i == 0, last = i + 1 == table.points.size();
        steps.push_back({first ? table.points[i].position : half_way(i - 1), last ? table.points[i].position : half_way(i),
                         -table.points[i].correction});
    }
    return steps;
}

/// The same error as measured in the later of the states compared; nullptr where the table was made of that one, or there is none.
const SeriesView* measured_later(const Subject& subject, const SeriesView& view) {
    const auto compared = document::states_compared(subject.document);
    if (!compared || view.series.state != compared->first) return nullptr;
    for (const SeriesView& other : subject.views)
        if (other.series.state == compared->second && other.series.error == view.series.error &&
            other.evaluation.kind == view.evaluation.kind && other.shown.unit.dimension == view.shown.unit.dimension)
            return &other;
    return nullptr;
}

/// A parameter as measured and as predicted, to one place.
struct RowNumbers {
    std::optional<Deviation> measured, predicted;
    int decimals;
};

RowNumbers row_numbers(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted,
                       const std::string& name) {
    const auto before = value_of_parameter(view.evaluation, name), after = value_of_parameter(predicted, name);
    return {before, after,
            enough_decimals(view.shown, parameter_decimals(subject, view, name), {before, after})};
}

std::string cell_of(const SeriesView& view, const std::optional<Deviation>& value, int decimals) {
    return value ? number_of(view.shown, *value, decimals) : no_value;
}

std::string side_words(const std::string& name) {
    if (const auto approach = direction_of(name)) return ", " + std::string(word(*approach)) + " approach";
    return name.ends_with("_mean") ? ", mean" : "";
}

/// The name that a parameter has here: of one direction where there is nothing else.
std::string name_here(const evaluate::SeriesEvaluation& predicted, const std::string& name) {
    if (value_of_parameter(predicted, name)) return name;
    for (const auto approach : document::both_approaches)
        if (value_of_parameter(predicted, in_direction(name, approach))) return in_direction(name, approach);
    return "";
}

PlainTable values_table(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted,
                        const SeriesView* later) {
    const std::string state = state_words(view.series.state);
    PlainTable table{.columns = {{std::string(view.shown.unit.symbol), 0}, {state.empty() ? "measured" : state, 0, numbers},
                                 {"predicted", 0, numbers}}};
    if (later) table.columns.push_back({state_words(later->series.state), 0, numbers});
    for (const std::string both : shown_parameters) {
        const std::string name = name_here(predicted, both);
        if (name.empty()) continue;
        const RowNumbers row = row_numbers(subject, view, predicted, name);
        Text words = Text().symbol(name.substr(0, 1));
        if (const auto approach = direction_of(name)) words.plain(*approach == Approach::Positive ? " pos." : " neg.");
        if (name == "B_mean") words.plain(" mean");
        table.rows.push_back({words, Text(cell_of(view, row.measured, row.decimals)), Text(cell_of(view, row.predicted, row.decimals))});
        if (!later) continue;
        const auto value = value_of_parameter(later->evaluation, name);
        table.rows.back().push_back(value ? Text().strong(cell_of(view, value, row.decimals)) : Text(no_value));
    }
    return table;
}

Text compensation_lead(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted,
                       const CompensationEvaluation& made, const SeriesView* later) {
    const std::string name = name_here(predicted, "E");
    const auto [before, after, decimals] = name.empty() ? RowNumbers{} : row_numbers(subject, view, predicted, name);
    if (!before || !after) return Text("A table for " + made.axis + "; these readings cannot predict what remains.");
    const std::string from = number_of(view.shown, *before, decimals), to = value_text(view.shown, *after, decimals);
    Text lead("Predicted: ");
    lead.symbol("E").plain(side_words(name) + (name == "E" ? "" : ","));
    if (*after == *before) lead.plain(" stays at " + to);
    else lead.plain((*after < *before ? " falls from " : " rises from ") + from + " to " + to);
    const auto measured = later ? value_of_parameter(later->evaluation, name) : std::nullopt;
    if (!measured) return lead.plain("; measure again.");
    return lead.plain(". Measured " + state_words(later->series.state) + ": " + value_text(view.shown, *measured, decimals) + ".");
}

/// "The correction runs from −36 to 0 µm at 33 points, 200 mm apart, in steps of 1 µm."
Text compensation_body(const Subject& subject, const CompensationEvaluation& made) {
    Deviation low = made.tables.front().points.front().correction, high = low;
    for (const auto& table : made.tables)
        for (const auto& point : table.points) {
            low = std::min(low, point.correction);
            high = std::max(high, point.correction);
        }
    const auto facts = table_facts(subject, made);
    const auto fact = [&](const std::string& name) { return std::ranges::find(facts, name, &Fact::name)->lines.front().words(); };
    Text body("The correction runs from " + correction_words(subject, made, low, high) + " at " +
              std::to_string(made.tables.front().points.size()) + " points, " + fact("Spacing") + " apart.");
    if (made.reversal) body.plain(" In the negative approach " + fact("Reversal").substr(0, fact("Reversal").find(',')) + " is added.");
    return body;
}

/// Predicted values are no results; what was measured later is one, whatever table was in use.
std::vector<Text> values_notes(const SeriesView* later) {
    std::vector<Text> notes{Text("Predicted values are not measured.")};
    if (later)
        notes.emplace_back("What was measured " + state_words(later->series.state) +
                           " holds what was predicted and all that came between the two series; from where, the report does not say.");
    return notes;
}

Compensation refused(const CompensationEvaluation& made, Opening opening) {
    opening.lead = Text("No compensation table for " + made.axis + ": the data do not support one.");
    Section reasons{.heading = "Reasons for no table"};
    BulletList list;
    for (const std::string& reason : made.refused) list.items.emplace_back(capitalised(page_words(reason)) + ".");
    reasons.parts.emplace_back(std::move(list));
    return {.opening = std::move(opening), .sections = {reasons}};
}

Compensation compensation(const Subject& subject, const CompensationEvaluation& made, const SeriesView* view, Opening opening) {
    if (!made.refused.empty() || !view) return refused(made, std::move(opening));
    const evaluate::SeriesEvaluation predicted = predicted_series(view->evaluation, made);
    const SeriesView* later = measured_later(subject, *view);
    opening.lead = compensation_lead(subject, *view, predicted, made, later);
    opening.body = compensation_body(subject, made);
    Compensation page{.opening = std::move(opening),
                      .measured = measured_plot(subject, *view, made),
                      .predicted = predicted_plot(subject, *view, predicted, made),
                      .values = values_table(subject, *view, predicted, later),
                      .values_notes = values_notes(later),
                      .points_heading = "Correction at each point of axis " + made.axis + " / " + std::string(made.unit.symbol) +
                                        ", and its step from the point before",
                      .points = points_table(subject, made),
                      .points_notes = convention(subject, made),
                      .cautions_heading = "Before this table is loaded",
                      .cautions = table_cautions(made)};
    for (const auto& table : made.tables) page.steps.push_back(steps_of(table, made));
    const std::string unit = " / " + std::string(view->shown.unit.symbol), state = state_words(view->series.state);
    page.measured_title = "Deviation" + (state.empty() ? " as measured" : " " + state) + ", correction with its sign turned" + unit;
    page.predicted_title = "Predicted residual" + unit;
    if (later) {
        page.later = mean_curve_of(deviation_plot(subject.document, later->series, later->evaluation, view->shown));
        page.later_words = "mean measured " + state_words(later->series.state);
        page.predicted_title = "Predicted residual, and the " + page.later_words + unit;
    }
    page.caption = Text("Steps: the correction of each point, with its sign turned, so that it lies along the error. Below: what remains, ")
                       .strong("predicted").plain(later ? " and measured." : ".");
    return page;
}

}  // namespace

std::vector<Compensation> compensations(const Subject& subject) {
    std::vector<Compensation> pages;
    const auto& views = subject.views;
    for (const CompensationEvaluation& made : subject.evaluation.compensation) {
        const SeriesView* view = find_view(views, made.series);
        Opening opening{.label = "Compensation of " + made.axis + (view ? state_suffix(view->series.state) : ""),
                        .anchor = "compensation-" + std::to_string(pages.size())};
        pages.push_back(compensation(subject, made, view, std::move(opening)));
    }
    // Those that were refused share a page at the end.
    std::ranges::stable_partition(pages, [](const Compensation& page) { return page.predicted.has_value(); });
    return pages;
}

}  // namespace wayfolio::report
