#include "report/blocks/blocks.hpp"

#include "report/blocks/plots/plots.hpp"
#include "report/blocks/tables/tables.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <utility>

namespace wayfolio::report {
namespace {

using evaluate::Parameter;

std::string place(const SeriesView& view, const evaluate::SetBy& set) {
    return "target " + std::to_string(set.index + 1) + " at " + position_text(view.shown, set.position);
}

/// "no limit is set", of one parameter only where others have a limit.
Text without_limit(const Subject& subject, const SeriesView& view, const std::string& symbol) {
    const bool others = std::ranges::any_of(subject.evaluation.decisions, [&](const evaluate::Decision& decision) {
        return decision.series == view.series.id && !decision.axes;
    });
    return others && !symbol.empty() ? Text("no limit is set for ").symbol(symbol) : Text("no limit is set");
}

/// The lead: the verdict in one sentence.
Text positioning_lead(const Subject& subject, const SeriesView& view, const std::string& headline) {
    const auto* decision = find_decision(subject.evaluation, view.series.id, headline);
    const std::string symbol = parameter_symbol(headline);
    const Text name = Text(parameter_words(symbol, view.evaluation.standard) + " ").symbol(symbol);
    if (decision && decision->value) return verdict_sentence(Text("Positioning"), *decision, view.shown);
    const auto value = value_of_parameter(view.evaluation, headline);
    const auto* parameter = evaluate::find_parameter(view.evaluation, headline);
    const auto E = value_of_parameter(view.evaluation, "E");
    if (decision) {
        Text lead;
        if (E && headline != "E")
            lead.plain("The systematic error is " + parameter_text(subject, view, "E") + ". ");
        return lead.append(verdict_sentence(name, *decision, view.shown));
    }
    if (!value && !(parameter && parameter->stated)) return Text("The readings do not support ").symbol(symbol).plain(".");
    return Text(name)
        .plain(" is ")
        .append(shown_result(subject, view, headline))
        .plain("; ")
        .append(without_limit(subject, view, symbol))
        .plain(".");
}

/// The other parameters of the series that stand worse than the one that speaks for it, as far as the lead's three lines hold them.
void append_worse(Text& lead, const Subject& subject, const SeriesView& view, const std::string& headline) {
    const int spoken = severity(find_decision(subject.evaluation, view.series.id, headline));
    std::vector<const evaluate::Decision*> worse;
    for (const auto& decision : subject.evaluation.decisions)
        if (decision.series == view.series.id && !decision.axes && decision.parameter != headline && severity(&decision) < spoken)
            worse.push_back(&decision);
    std::ranges::stable_sort(worse, {}, [](const evaluate::Decision* decision) { return severity(decision); });
    if (worse.size() == 1) lead.plain(" ").append(verdict_sentence(Text(decision_name(subject, view, *worse[0])), *worse[0], view.shown));
    else
        for (const evaluate::Decision* decision : worse) {
            const std::string word = uncapitalised(verdict_of(decision, view.shown).word.words());
            lead.plain(" " + decision_name(subject, view, *decision) + " is " + word + ".");
        }
}

/// "A, E, M and R are inside their limits; B is not accepted.": where the sentences are too long for two lines.
Text lead_by_symbols(const Subject& subject, const SeriesView& view) {
    Text lead;
    for (const Standing standing : {Standing::Inside, Standing::InsideByLess, Standing::Outside, Standing::OutsideByLess,
                                    Standing::NotAccepted, Standing::Undecided, Standing::NotEvaluated}) {
        std::vector<const evaluate::Decision*> some;
        for (const auto& decision : subject.evaluation.decisions)
            if (decision.series == view.series.id && !decision.axes && evaluate::standing_of(&decision) == standing)
                some.push_back(&decision);
        if (some.empty()) continue;
        lead.plain(lead.empty() ? "" : "; ");
        for (std::size_t i = 0; i < some.size(); ++i) {
            const std::string& parameter = some[i]->parameter;
            lead.plain(i == 0 ? "" : i + 1 == some.size() ? " and " : ", ");
            if (parameter == parameter_symbol(parameter)) lead.symbol(parameter);
            else lead.plain(uncapitalised(decision_name(subject, view, *some[i])));
        }
        const bool inside = standing == Standing::Inside;
        lead.plain(some.size() == 1 ? " is " : " are ");
        lead.plain(inside ? (some.size() == 1 ? "inside its limit" : "inside their limits")
                          : uncapitalised(verdict_of(some[0], view.shown).word.words()));
    }
    return lead.plain(".");
}

/// Where the value comes from, and what the reversal does.
Text positioning_body(const Subject& subject, const SeriesView& view, const std::string& headline) {
    Text body = air_correction_words(view, headline);
    const Parameter* parameter = evaluate::find_parameter(view.evaluation, headline);
    const Parameter* shown = parameter && evaluate::value_of(parameter->value) ? parameter : evaluate::find_parameter(view.evaluation, "E");
    if (shown && shown->set_by.size() == 2) {
        auto first = shown->set_by[0], second = shown->set_by[1];
        if (second.position < first.position) std::swap(first, second);
        body.symbol(parameter_symbol(shown->name)).plain(" is set by " + place(view, first));
        body.plain((first.index == second.index ? "" : " and " + place(view, second)) + ". ");
    }
    const Parameter* B = evaluate::find_parameter(view.evaluation, "B");
    if (const auto value = value_of_parameter(view.evaluation, "B"); value && B && !B->set_by.empty()) {
        const auto mean = value_of_parameter(view.evaluation, "B_mean");
        body.plain("The reversal error is " + parameter_text(subject, view, "B") + ", at " + place(view, B->set_by[0]));
        if (mean) body.plain("; the mean reversal value is " + parameter_text(subject, view, "B_mean"));
        body.plain(". ");
    }
    if (!value_of_parameter(view.evaluation, "R") && !value_of_parameter(view.evaluation, "R_positive") &&
        !value_of_parameter(view.evaluation, "R_negative") && view.evaluation.source == evaluate::Source::Runs)
        body.plain("The repeatability was not measured. ");
    // Over 2 m several runs are not the standard's test: that belongs beside the result, the other conditions on their own page.
    for (const auto& condition : view.evaluation.conditions) {
        if (condition.holds == false && condition.name == "one_approach_each_way") body.plain(condition.text + " ");
    }
    if (const std::string words = trace_words(view); !words.empty()) body.plain(words + " ");
    return body;
}

Text positioning_caption(const SeriesView& view, const DeviationPlot& plot) {
    const std::size_t n = runs_each_way(view.evaluation);
    const auto has = [&](Approach approach) {
        return std::ranges::any_of(plot.targets, [&](const auto& t) { return t.one_way[approach].mean.has_value(); });
    };
    const bool up = has(Approach::Positive), down = has(Approach::Negative);
    Text caption("Deviation from target position along " + view.series.error.axis);
    if (up != down) caption.plain(up ? ", positive approach only" : ", negative approach only");
    if (n == 1) caption.plain(", one run" + std::string(up && down ? " each way" : ""));
    caption.plain(".");
    if (plot.brackets.empty()) return caption;
    caption.plain(plot.brackets.size() == 1 ? " The bracket measures " : " The brackets measure ");
    for (std::size_t i = 0; i < plot.brackets.size(); ++i) {
        if (i > 0) caption.plain(i + 1 == plot.brackets.size() ? " and " : ", ");
        caption.symbol(plot.brackets[i].symbol);
    }
    return caption.plain("; the short ticks show the targets that set each.");
}

std::vector<MarginValue> bracket_values(const Subject& subject, const SeriesView& view, const DeviationPlot& plot,
                                        const std::string& headline) {
    const std::string suffix = headline.find('_') == std::string::npos ? "" : headline.substr(headline.find('_'));
    std::vector<MarginValue> values;
    for (auto bracket = plot.brackets.rbegin(); bracket != plot.brackets.rend(); ++bracket) {
        MarginValue value{.symbol = bracket->symbol, .number = shown_result(subject, view, bracket->symbol + suffix)};
        value.notes.emplace_back(uncapitalised(parameter_words(bracket->symbol, view.evaluation.standard)));
        values.push_back(std::move(value));
    }
    return values;
}

MarginValue reversal_value(const Subject& subject, const SeriesView& view) {
    const Parameter* B = evaluate::find_parameter(view.evaluation, "B");
    if (!B || !evaluate::value_of(B->value)) return {};
    MarginValue value{.symbol = "B", .number = shown_result(subject, view, "B")};
    if (!B->set_by.empty()) value.notes.emplace_back("largest, at target " + std::to_string(B->set_by[0].index + 1));
    if (value_of_parameter(view.evaluation, "B_mean")) value.notes.push_back(Text("mean ").append(shown_result(subject, view, "B_mean")));
    return value;
}

MarginValue repeatability_value(const Subject& subject, const SeriesView& view) {
    MarginValue value{.symbol = "R"};
    const Parameter* R = evaluate::find_parameter(view.evaluation, "R");
    const auto of = [&](const std::string& name) { return value_of_parameter(view.evaluation, name); };
    const int decimals = enough_decimals(view.shown, parameter_decimals(subject, view, "R"), {of("R_positive"), of("R_negative")});
    std::vector<std::string> one_way;
    for (const Approach approach : document::both_approaches) {
        const auto one = of(in_direction("R", approach));
        if (one) one_way.push_back(std::string(word(approach)) + " " + number_of(view.shown, *one, decimals));
    }
    if (R && evaluate::value_of(R->value)) {
        value.number = shown_result(subject, view, "R");
        if (!R->set_by.empty()) value.notes.emplace_back("bi-directional, at target " + std::to_string(R->set_by[0].index + 1));
    } else if (one_way.empty()) {
        return {};
    }
    if (!one_way.empty()) value.notes.emplace_back(one_way.size() == 2 ? one_way[0] + ", " + one_way[1] : one_way[0]);
    return value;
}

}  // namespace

PositioningOpening positioning_opening(const Subject& subject, const SeriesView& view) {
    const std::string headline = headline_parameter(view.series, view.evaluation);
    PositioningOpening made;
    Text lead = positioning_lead(subject, view, headline);
    append_worse(lead, subject, view, headline);
    constexpr std::size_t two_lines = 94;  // letters that they hold
    const auto* decision = find_decision(subject.evaluation, view.series.id, headline);
    if (lead.words().size() > two_lines && decision && decision->value) {
        const Text shorter = lead_by_symbols(subject, view);
        if (shorter.words().size() < lead.words().size()) lead = shorter;
    }
    made.run_order = run_order(subject, view);
    made.opening = {.label = series_title(subject.document, view.series),
                    .anchor = opening_anchor(view.series.id),
                    .lead = std::move(lead),
                    .body = positioning_body(subject, view, headline)};
    made.verdict = verdict_of(find_decision(subject.evaluation, view.series.id, headline), view.shown);
    made.plot = judged_plot(subject, view);
    made.caption = positioning_caption(view, made.plot);
    made.values = bracket_values(subject, view, made.plot, headline);
    made.reversal = reversal_value(subject, view);
    made.repeatability = repeatability_value(subject, view);
    made.parameter_unit = view.shown.unit.symbol;
    ParameterTable table = parameter_table(subject, view);
    made.parameters = std::move(table.rows);
    made.notes = std::move(table.notes);
    made.runs_per_direction = runs_each_way(view.evaluation);
    return made;
}

}  // namespace wayfolio::report
