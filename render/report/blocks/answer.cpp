#include "report/blocks/blocks.hpp"

#include "document/states.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

std::string axes_of(const std::vector<SeriesView>& views) {
    std::vector<std::string> axes;
    for (const SeriesView& view : views) {
        add_once(axes, view.series.error.axis);
    }
    return listed(axes) + (axes.size() == 1 ? " axis" : " axes");
}

/// The decision that a row shows: the headline's, or a worse one of the same series (another parameter, a local limit).
const evaluate::Decision* row_decision(const Subject& subject, const SeriesView& view) {
    const evaluate::Decision* chosen = find_decision(subject.evaluation, view.series.id, headline_parameter(view.series, view.evaluation));
    for (const auto& decision : subject.evaluation.decisions) {
        if (decision.series == view.series.id && !decision.axes && severity(&decision) < severity(chosen)) chosen = &decision;
    }
    return chosen;
}

/// A unit with a factor is too long for the column: "2.85 ± 0.45" stands over "× 10⁻³ °, limit 4".
void set_factor_apart(QuantityRow& row, const Shown& shown) {
    if (!has_factor(shown)) return;
    row.result = Text(without_factor(row.result.words()));
    row.limit = Text("×\u00a0" + std::string(shown.unit.symbol));
}

/// "87.3 % of the limit, U 20.0 %".
std::string gauge_words(const QuantityRow& row, const Shown& shown) {
    const auto percent = [&](double share) { return units::number(100 * share, 1, shown.style) + "\u202f%"; };
    return percent(*row.value_of_limit) + " of the limit" + (row.U_of_limit ? ", U " + percent(*row.U_of_limit) : "");
}

/// Limit, gauge and verdict of a row.
void add_decision(QuantityRow& row, const evaluate::Decision* decision, const Shown& shown) {
    row.verdict = verdict_of(decision, shown);
    if (!decision) return;
    const std::string words = "limit " + limit_number(shown, decision->limit);
    row.limit = Text(has_factor(shown) ? row.limit.words() + ", " + words : with_unit(words, shown.unit.symbol));
    const double limit = decision->limit.in(shown.unit);
    if (limit <= 0) return;
    if (decision->value) row.value_of_limit = judged_value(*decision).in(shown.unit) / limit;
    if (decision->expanded) row.U_of_limit = decision->expanded->in(shown.unit) / limit;
    if (row.value_of_limit) row.gauge_words = gauge_words(row, shown);
}

/// The quantity, and the parameter where another than the headline decides; short, as the curve stands close to it.
std::string row_name(const Subject& subject, const SeriesView& view, const std::string& parameter) {
    const std::string name = quantity_kind(subject.document, view.series.error), symbol = parameter_symbol(parameter);
    return symbol.empty() || parameter == headline_parameter(view.series, view.evaluation) ? name : name + ",\u00a0" + symbol;
}

QuantityRow quantity_row(const Subject& subject, const SeriesView& view) {
    const auto* decision = row_decision(subject, view);
    const std::string parameter = decision ? decision->parameter : headline_parameter(view.series, view.evaluation);
    QuantityRow row{.name = row_name(subject, view, parameter), .detail = quantity_detail(subject.document, view.series.error, parameter)};
    const std::string state = other_state_suffix(subject.document, view.series.state);
    if (!state.empty()) row.detail = view.series.error.text() + state;  // in place of the direction, as the curve stands close to it
    row.curve = mean_curve_of(deviation_plot(subject.document, view.series, view.evaluation, view.shown));
    if (!row.curve.empty()) row.curve_words = curve_words(row.curve, view.shown);
    if (decision && decision->length_mm) {
        row.detail = view.series.error.text() + state + ", " + length_text(view.shown, *decision->length_mm);
        row.result =
            Text(decision->value ? result_text(view.shown, *decision->value, decision->expanded, decided_decimals(*decision, view.shown))
                                 : no_value);
    } else {
        row.result = shown_result(subject, view, parameter);
    }
    // Said under the name: beside the value it would run over the gauge.
    const std::string result = row.result.words(), said = ", as stated";
    if (result.ends_with(said)) {
        row.result = Text(result.substr(0, result.size() - said.size()));
        row.detail = view.series.error.text() + state + said;
    }
    set_factor_apart(row, view.shown);
    add_decision(row, decision, view.shown);
    row.destination = opening_anchor(view.series.id);
    return row;
}

QuantityRow squareness_row(const Subject& subject, const evaluate::SquarenessEvaluation& squareness) {
    const Shown shown = squareness_shown(subject);
    QuantityRow row{.name = "Squareness error", .detail = squareness.symbol + ", " + squareness.axes[0] + " and " + squareness.axes[1]};
    const auto* value = evaluate::value_of(squareness.value);
    const auto* decision = find_decision(subject.evaluation, squareness);
    const auto U = expanded_of(subject, squareness);
    if (value && decision && decision->value)
        row.result = Text(result_text(shown, *value, U, decided_decimals(*decision, shown)));
    else
        row.result = Text(value ? result_text(shown, *value, U) : no_value);
    set_factor_apart(row, shown);
    add_decision(row, decision, shown);
    return row;
}

std::vector<Text> rows_note(const Subject& subject, const std::vector<SeriesView>& views, const std::vector<QuantityRow>& rows) {
    std::vector<Text> notes;
    const bool any_U = std::ranges::any_of(rows, [](const QuantityRow& row) { return row.result.words().find("±") != std::string::npos; });
    Text note;
    if (any_U) {
        const bool by_t = subject.document.evaluation.coverage == document::Coverage::Percent95;
        note = marked("*U* is the expanded uncertainty, ")
                   .symbol("k")
                   .plain(by_t ? " for 95\u202f% as named with each budget" : "\u00a0=\u00a02 unless named otherwise")
                   .plain("; the bar is ±\u202f")
                   .symbol("U")
                   .plain(". ");
    }
    if (!subject.evaluation.decisions.empty()) {
        const auto& first = subject.evaluation.decisions.front();
        note.plain("Rule: " + rule_words(first.rule) + (first.rule_stated ? ". " : ", as the document names none. "));
    }
    const auto count = [&](units::Dimension d) {
        return std::ranges::count_if(views, [&](const SeriesView& v) { return v.series.unit.dimension == d; });
    };
    if (views.size() > 1) {
        const bool both = count(units::Dimension::Length) > 0 && count(units::Dimension::Angle) > 0;
        note.plain(both ? "Curves share one scale for lengths and one for angles." : "Curves share one scale.");
    }
    notes.push_back(std::move(note));
    return notes;
}

}  // namespace

Answer answer(const Subject& subject) {
    const auto views = answering_series(subject);
    const auto compared = states_compared(subject.document);
    Answer made;
    made.opening = {.label = "Calibration of the " + axes_of(views) +
                             (compared        ? state_suffix(compared->second)
                              : views.empty() ? ""
                                              : state_suffix(views[0].series.state)),
                    .anchor = "answer",
                    .lead = answer_lead(subject, views),
                    .body = answer_body(subject, views)};
    made.weaknesses = weaknesses(subject, views);
    made.facts = short_facts(subject);
    for (const SeriesView& view : views) made.rows.push_back(quantity_row(subject, view));
    for (const auto* squareness : answering_squareness(subject, views)) made.rows.push_back(squareness_row(subject, *squareness));
    const bool one_axis =
        std::ranges::all_of(views, [&](const SeriesView& v) { return v.series.error.axis == views[0].series.error.axis; });
    made.curve_title = one_axis && !views.empty() ? "Mean along " + views[0].series.error.axis : "Mean along the axis";
    made.rows_note = rows_note(subject, views, made.rows);
    made.what_failed = what_failed(subject, views);
    made.what_next = what_next(subject, views);
    made.cautions = answer_cautions(subject);
    made.signatures = signatures_of(subject);
    made.issue_note = issue_note(subject.document);
    made.signed_at_end = std::ranges::any_of(subject.layout.blocks, [](const auto& name) { return name == "closing" || name == "remarks"; });
    return made;
}

}  // namespace wayfolio::report
