#include "report/blocks/blocks.hpp"

#include "report/blocks/plots/plots.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>
#include <array>

namespace wayfolio::report {
namespace {

using evaluate::CompensationEvaluation;
using evaluate::Parameter;

/// Parameters that a table can change, in the order of the opening's table; R is left out where the table cannot touch it.
constexpr std::array shown_parameters{"A", "A_positive", "A_negative", "E", "E_positive", "E_negative", "M", "B", "B_mean"};

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

DeviationPlot predicted_plot(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted,
                             const CompensationEvaluation& made) {
    DeviationPlot plot = deviation_plot(subject.document, view.series, predicted, view.shown);
    plot.series_id = "predicted-" + made.series;
    plot.excluded.clear();
    plot.trace.clear();
    plot.ticks.clear();
    plot.runs.clear();
    plot.pale_means = {.words = "means as measured", .targets = view.evaluation.targets};
    plot.alternative =
        "Predicted with the compensation table in use, not measured; the means as measured are pale lines behind. " + plot.alternative;
    return plot;
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

PlainTable parameters_table(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted) {
    const std::string unit = " / " + std::string(view.shown.unit.symbol);
    PlainTable table{.columns = {{"Parameter" + unit, 0.46}, {"as measured", 0.2, numbers}, {"predicted, measure again", 0.34, numbers}}};
    for (const std::string name : shown_parameters) {
        if (!value_of_parameter(predicted, name)) continue;
        const std::string symbol = name.substr(0, 1);
        Text words(parameter_words(symbol, view.evaluation.standard) + " ");
        words.symbol(symbol).plain(side_words(name));
        const RowNumbers row = row_numbers(subject, view, predicted, name);
        table.rows.push_back({words, Text(cell_of(view, row.measured, row.decimals)), Text(cell_of(view, row.predicted, row.decimals))});
    }
    return table;
}

Text compensation_lead(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted,
                       const CompensationEvaluation& made) {
    for (const std::string name : {"E", "E_positive", "E_negative"}) {
        const auto [before, after, decimals] = row_numbers(subject, view, predicted, name);
        if (!before || !after) continue;
        const std::string from = number_of(view.shown, *before, decimals), to = value_text(view.shown, *after, decimals);
        Text lead("Predicted: ");
        lead.symbol("E").plain(side_words(name) + (name == "E" ? "" : ","));
        if (*after == *before) return lead.plain(" stays at " + to + "; measure again.");
        return lead.plain((*after < *before ? " falls from " : " rises from ") + from + " to " + to + "; measure again.");
    }
    return Text("A table for " + made.axis + "; these readings cannot predict what remains.");
}

std::vector<MarginValue> margin_values(const Subject& subject, const SeriesView& view, const evaluate::SeriesEvaluation& predicted,
                                       const DeviationPlot& plot) {
    std::vector<MarginValue> values;
    for (auto bracket = plot.brackets.rbegin(); bracket != plot.brackets.rend(); ++bracket) {
        std::string name = bracket->symbol;
        if (!value_of_parameter(predicted, name)) name += value_of_parameter(predicted, name + "_positive") ? "_positive" : "_negative";
        const auto [before, value, decimals] = row_numbers(subject, view, predicted, name);
        if (!value) continue;
        values.push_back({.symbol = bracket->symbol,
                          .number = Text(value_text(view.shown, *value, decimals)),
                          .notes = {Text("predicted, measure again")}});
        if (before) values.back().notes.emplace_back("measured " + value_text(view.shown, *before, decimals));
    }
    return values;
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
    opening.lead = compensation_lead(subject, *view, predicted, made);
    Compensation page{.opening = std::move(opening),
                      .predicted = predicted_plot(subject, *view, predicted, made),
                      .points_heading = "Table of axis " + made.axis,
                      .points = points_table(subject, made)};
    page.caption = Text()
                       .strong("Predicted")
                       .plain(" means along " + made.axis + " with the table in use. " +
                              std::string(page.predicted->bands ? "Bands as measured: a table does not change the repeatability." : ""));
    page.values = margin_values(subject, *view, predicted, *page.predicted);
    page.sections.push_back({.heading = "Predicted parameters: measure again", .parts = {parameters_table(subject, *view, predicted)}});
    BulletList signs{convention(subject, made)}, cautions{table_cautions(made)};
    page.sections.push_back({.heading = "Before this table is loaded", .parts = {cautions}});
    page.sections.push_back({.heading = "Definition of the table", .parts = {FactTable{table_facts(subject, made)}, signs}});
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
    return pages;
}

}  // namespace wayfolio::report
