#include "report/blocks/blocks.hpp"

#include "report/blocks/plots/plots.hpp"
#include "report/blocks/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::SeriesKind;

bool is_angle(const SeriesView& view) { return view.evaluation.kind == SeriesKind::Angle; }

/// "pitch: 12.3 µrad", of a series whose speaking value has no limit.
std::string unlimited_words(const Subject& subject, const SeriesView& view, const std::string& headline) {
    const std::string name = quantity_in_a_sentence(subject.document, view.series.error);
    const auto* parameter = evaluate::find_parameter(view.evaluation, headline);
    const bool there = value_of_parameter(view.evaluation, headline) || (parameter && parameter->stated);
    return there ? name + ": " + shown_result(subject, view, headline).words() : name + " is not evaluated";
}

/// Of a series whose speaking value has no limit: where another of its values has one, "over the whole travel" or "for its range".
std::string where_unlimited(const Subject& subject, const SeriesView& view, const std::string& headline) {
    const bool others = std::ranges::any_of(subject.evaluation.decisions, [&](const evaluate::Decision& decision) {
        return decision.series == view.series.id && !decision.axes && decision.parameter != headline;
    });
    if (!others) return {};
    return is_angle(view) ? " for the range" : " over the whole travel";
}

/// One sentence per series that is not simply inside: "Pitch is outside its limit of ..."
Text panels_lead(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<std::string> inside, unlimited;
    std::string where;
    Text others;
    for (const SeriesView& view : views) {
        const std::string headline = headline_parameter(view.series, view.evaluation);
        const auto* decision = find_decision(subject.evaluation, view.series.id, headline);
        const std::string name = quantity_in_a_sentence(subject.document, view.series.error);
        const Standing standing = evaluate::standing_of(decision);
        if (standing == Standing::Inside) inside.push_back(name);
        else if (standing == Standing::NoLimit) {
            unlimited.push_back(unlimited_words(subject, view, headline));
            if (where.empty()) where = where_unlimited(subject, view, headline);
        }
        else others.plain(others.empty() ? "" : " ").append(verdict_sentence(Text(capitalised(name)), *decision, view.shown));
    }
    Text lead;
    if (!inside.empty())
        lead.plain(capitalised(listed(inside)) + (inside.size() == 1 ? " is inside its limit." : " are inside their limits."));
    lead.plain(lead.empty() || others.empty() ? "" : " ").append(others);
    if (lead.empty()) lead.plain(capitalised(listed(unlimited)) + "; no limit is set" + where + ".");
    return lead;
}

Text panels_body(const Subject& subject, const std::vector<SeriesView>& views) {
    const bool read = std::ranges::any_of(views, [&](const SeriesView& view) {
        return std::ranges::any_of(view.evaluation.targets, [](const auto& target) { return target.trace_mean().has_value(); });
    });
    const bool traced = std::ranges::any_of(views, [](const SeriesView& view) { return view.series.trace.has_value(); });
    const bool stated =
        std::ranges::all_of(views, [](const SeriesView& view) { return view.evaluation.source == evaluate::Source::Stated; });
    if (!read && traced) return Text("What is drawn was recorded on the fly; no line and no level is taken off.");
    if (!read) return Text(stated ? "The values are as stated; there are no readings to draw." : "There are no readings to draw.");
    if (is_angle(views[0]))
        return Text("The zero of each curve is the mean of its readings, as only differences have meaning; no slope is removed.");
    const auto* headline = evaluate::find_parameter(views[0].evaluation, "straightness");
    Text body("Deviations are from the " );
    using document::ReferenceLine;
    const ReferenceLine line = headline && headline->reference_line ? *headline->reference_line : ReferenceLine::LeastSquares;
    switch (line) {
        case ReferenceLine::EndPoint: body.plain("line through the first and the last mean bi-directional deviation"); break;
        case ReferenceLine::LeastSquares: body.plain("least-squares line of the mean bi-directional deviations"); break;
        case ReferenceLine::MinimumZone: body.plain("minimum-zone line of all means of both approaches"); break;
    }
    body.plain("; one line serves both, so that a reversal shows. The table names the other two lines beside it.");
    for (const SeriesView& view : views) {
        body.plain(locally_largest(subject, view));
        if (view.evaluation.closing_error)
            body.plain(" " + capitalised(quantity_in_a_sentence(subject.document, view.series.error)) +
                       " is of the heights by the mean angles of both approaches. Those by either approach alone are drawn beside it; "
                       "their ends differ by what they fail to close.");
    }
    return body;
}

/// Rows of a panel's table.
class PanelRows {
public:
    PanelRows(const Subject& subject, const SeriesView& view) : subject_(subject), view_(view) {}

    void headline(const std::string& words, const std::string& parameter) {
        const auto U = expanded_of(subject_, view_.series.id, parameter);
        decimals_ = parameter_decimals(subject_, view_, parameter);
        const auto value = known(parameter);
        if (!value) return;
        Text number = Text().strong(number_of(view_.shown, *value, decimals_));
        if (U) number.plain("\u00a0±\u202f" + number_of(view_.shown, *U, decimals_));
        rows_.emplace_back(Text(words), number);
    }
    void value(const std::string& words, const std::string& parameter) {
        if (const auto value = known(parameter)) rows_.emplace_back(Text(words), Text(result_number(view_.shown, *value, decimals_)));
    }
    void number(const std::string& words, const Deviation& value) {
        rows_.emplace_back(Text(words), Text(result_number(view_.shown, value, decimals_)));
    }
    void text(const std::string& words, const std::string& text) { rows_.emplace_back(Text(words), Text(text)); }
    void limit(const std::string& parameter) {
        const auto* decision = find_decision(subject_.evaluation, view_.series.id, parameter);
        rows_.emplace_back(Text("limit"), decision ? Text(limit_number(view_.shown, decision->limit)) : Text(no_value));
    }
    void set_by(const std::string& parameter) {
        const auto* found = evaluate::find_parameter(view_.evaluation, parameter);
        if (!found || found->set_by.empty()) return;
        std::string targets;
        for (const auto& set : found->set_by) targets += (targets.empty() ? "" : ",\u00a0") + std::to_string(set.index + 1);
        rows_.emplace_back(Text("set by targets"), Text(targets));
    }
    std::vector<std::pair<Text, Text>> take() { return std::move(rows_); }

private:
    [[nodiscard]] std::optional<Deviation> known(const std::string& parameter) const { return known_value(view_.evaluation, parameter); }
    const Subject& subject_;
    const SeriesView& view_;
    int decimals_ = 1;
    std::vector<std::pair<Text, Text>> rows_;
};

std::vector<std::pair<Text, Text>> angle_rows(const Subject& subject, const SeriesView& view) {
    PanelRows rows(subject, view);
    rows.headline("both approaches", "angle");
    rows.value("positive", "angle_positive");
    rows.value("negative", "angle_negative");
    rows.limit("angle");
    rows.value("reversal error", "B");
    rows.set_by(value_of_parameter(view.evaluation, "angle") ? "angle" : "angle_positive");
    return rows.take();
}

std::vector<std::pair<Text, Text>> straightness_rows(const Subject& subject, const SeriesView& view) {
    PanelRows rows(subject, view);
    rows.headline("both approaches", "straightness");
    rows.value("bi-directional mean", "straightness_mean");
    rows.value("positive", "straightness_positive");
    rows.value("negative", "straightness_negative");
    rows.limit("straightness");
    const auto* headline = evaluate::find_parameter(view.evaluation, "straightness");
    for (const auto& line : view.evaluation.lines) {
        if (headline && headline->reference_line == line.kind) continue;
        rows.number("by " + reference_line_words(line.kind), line.straightness);
    }
    for (const auto& local : view.evaluation.local) {
        if (local.reference != document::ReferenceLine::EndPoint) continue;
        rows.number("over any " + length_text(view.shown, local.window.in(units::millimetre)), local.value);
    }
    if (view.evaluation.closing_error) rows.number("fails to close by", *view.evaluation.closing_error);
    rows.value("reversal error", "B");
    rows.set_by("straightness");
    return rows.take();
}

/// "2.64 ± 0.90 µm", and what it is: where a table below the panels has the rest.
std::vector<Text> value_alone(const Subject& subject, const SeriesView& view) {
    std::vector<Text> lines;
    if (known_value(view.evaluation, "straightness")) lines.push_back(shown_result(subject, view, "straightness"));
    const auto* headline = evaluate::find_parameter(view.evaluation, "straightness");
    std::string targets;
    if (headline)
        for (const auto& set : headline->set_by) targets += (targets.empty() ? "" : ",\u00a0") + std::to_string(set.index + 1);
    if (!targets.empty()) lines.push_back(Text().quiet("of both approaches, targets " + targets));
    if (const auto* decision = find_decision(subject.evaluation, view.series.id, "straightness"))
        lines.push_back(Text().quiet("limit " + with_unit(limit_number(view.shown, decision->limit), view.shown.unit.symbol)));
    return lines;
}

enum class Numbers { Beside, Below };

Panel panel_of(const Subject& subject, const SeriesView& view, Numbers numbers_stand) {
    const std::string headline = headline_parameter(view.series, view.evaluation);
    Panel panel{.anchor = opening_anchor(view.series.id),
                .name = quantity_title(subject.document, view.series.error),
                .title = "deviation / " + std::string(view.shown.unit.symbol),
                .plot = judged_plot(subject, view),
                .verdict = verdict_of(find_decision(subject.evaluation, view.series.id, headline), view.shown)};
    if (panel.verdict.standing == Standing::NoLimit) panel.verdict.head.quiet(where_unlimited(subject, view, headline));
    panel.table_title = (is_angle(view) ? "Range / " : "Straightness error / ") + std::string(view.shown.unit.symbol);
    if (numbers_stand == Numbers::Below) panel.value = value_alone(subject, view);
    else panel.rows = is_angle(view) ? angle_rows(subject, view) : straightness_rows(subject, view);
    for (const auto& decision : subject.evaluation.decisions) {
        if (decision.series != view.series.id || decision.axes || decision.parameter == headline) continue;
        const Verdict verdict = verdict_of(&decision, view.shown);
        std::string name = parameter_words(decision.parameter, view.evaluation.standard);
        if (decision.length_mm) name += " over " + length_text(view.shown, *decision.length_mm);
        panel.notes.push_back(Text(name + ": ").append(verdict.short_form));
    }
    if (const auto agreed = agreed_limits(view)) panel.notes.emplace_back(*agreed);
    const auto* parameter = evaluate::find_parameter(view.evaluation, headline);
    if (parameter) {
        const auto* reason = std::get_if<evaluate::NotEvaluated>(&parameter->value);
        if (reason) panel.notes.emplace_back(parameter->stated ? "As stated, not recomputed." : "Not evaluated: " + reason->reason + ".");
    }
    return panel;
}

}  // namespace

std::string locally_largest(const Subject& subject, const SeriesView& view) {
    std::vector<std::string> places;
    for (const auto& local : view.evaluation.local) {
        if (local.reference != document::ReferenceLine::EndPoint) continue;
        const std::string window = length_text(view.shown, local.window.in(units::millimetre));
        // Where a window begins is computed: to the place of the targets, which are what is known of the axis.
        const double from = local.from.in(view.shown.position);
        const std::string place = units::number(from, position_decimals(view.shown, view.series), view.shown.style);
        places.push_back("over " + window + " from " + with_unit(place, view.shown.position.symbol) + " on");
    }
    return places.empty() ? std::string()
                          : " " + capitalised(quantity_in_a_sentence(subject.document, view.series.error)) + " is locally largest " +
                                listed(places) + ".";
}

Panels panels(const Subject& subject, const std::vector<SeriesView>& views) {
    const SeriesView& first = views.front();
    const std::string kind = is_angle(first) ? "Angular error motions" : "Straightness errors";
    Panels made;
    made.opening = {.label = kind + " of " + first.series.error.axis + state_suffix(first.series.state),
                    .anchor = opening_anchor(first.series.id),
                    .lead = panels_lead(subject, views),
                    .body = panels_body(subject, views)};
    std::vector<std::string> names;
    const auto joint = joint_straightness(subject, views);
    if (joint) made.sections.push_back({.heading = "", .parts = {*joint}});
    for (const SeriesView& view : views) {
        made.panels.push_back(panel_of(subject, view, joint ? Numbers::Below : Numbers::Beside));
        names.push_back(quantity_in_a_sentence(subject.document, view.series.error));
        made.runs_per_direction = std::max(made.runs_per_direction, runs_each_way(view.evaluation));
        made.bands = made.bands || made.panels.back().plot.bands;
        made.runs = made.runs || !made.panels.back().plot.runs.empty();
        made.excluded = made.excluded || !made.panels.back().plot.excluded.empty();
    }
    for (const SeriesView& view : views)
        if (auto traced = trace_section(view)) made.sections.push_back(std::move(*traced));
    made.caption = Text(capitalised(listed(names)) + " along " + first.series.error.axis + (views.size() > 1 ? ", on one scale" : "") +
                        ". Numbered ticks show the targets that set each range; the bracket measures it.");
    return made;
}

}  // namespace wayfolio::report
