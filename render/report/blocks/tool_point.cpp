#include "report/blocks/blocks.hpp"

#include "evaluate/series/geometry/geometry.hpp"
#include "report/blocks/plots/plots.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::AtToolPoint;
using evaluate::TargetEvaluation;

using Views = std::vector<const SeriesView*>;

/// Series of one axis and state that were moved, in the document's order.
std::vector<Views> groups_of(const std::vector<SeriesView>& views) {
    Views moved;
    for (const SeriesView& view : views)
        if (view.evaluation.at_tool_point && view.evaluation.kind != evaluate::SeriesKind::Angle) moved.push_back(&view);
    const auto fits = [](const SeriesView* first, const SeriesView* view) { return same_axis_and_state(*first, *view); };
    return grouped(moved, fits, moved.size());
}

/// Measured and moved value of one parameter; the moved one may be missing.
struct Moved {
    const evaluate::Parameter* measured;
    const evaluate::Parameter* moved;
};

std::vector<Moved> moved_parameters(const SeriesView& view) {
    std::vector<Moved> all;
    for (const auto& moved : view.evaluation.at_tool_point->parameters) {
        if (const auto* measured = evaluate::find_parameter(view.evaluation, moved.name)) all.push_back({measured, &moved});
    }
    return all;
}

const Deviation* value_of(const evaluate::Parameter& parameter) { return evaluate::value_of(parameter.value); }

/// The parameter that speaks for a moved series: E, or straightness. Nothing where either side lacks it.
std::optional<Moved> headline(const SeriesView& view) {
    for (const Moved& one : moved_parameters(view)) {
        const bool speaks = one.moved->name == "E" || one.moved->name == "straightness";
        if (speaks && value_of(*one.measured) && value_of(*one.moved)) return one;
    }
    return std::nullopt;
}

/// Whether an angle has an arm to act with, and was read where it is needed.
bool drawable(const SeriesView* view) {
    const AtToolPoint& at = *view->evaluation.at_tool_point;
    return at.largest.has_value() && !at.from.empty();
}

std::string largest_text(const SeriesView& view, const Deviation& value) {
    return with_unit(result_number(view.shown, value, view.shown.decimals), view.shown.unit.symbol);
}

/// What the angles move most, and what becomes of it.
Text tool_point_lead(const Subject& subject, const Views& drawn) {
    const auto size = [](const SeriesView* view) { return view->evaluation.at_tool_point->largest->in(units::micrometre); };
    const SeriesView& most = **std::ranges::max_element(drawn, {}, size);
    const auto& at = *most.evaluation.at_tool_point;
    Text lead("At the functional point the angular error motions change " + quantity_of_axis(subject.document, most.series.error) + " by " +
              largest_text(most, *at.largest) + " over the travel");
    if (const auto speaks = headline(most)) {
        if (speaks->moved->name == "E") lead.plain("; ").symbol("E");
        else lead.plain("; it");
        lead.plain(" becomes " + largest_text(most, *value_of(*speaks->moved)) + " instead of " +
                   largest_text(most, *value_of(*speaks->measured)));
    }
    return lead.plain(".");
}

/// "lowest at 0 mm, highest at 1 000 mm": the levels themselves hang on the instrument's zero.
std::string extremes_words(const SeriesView& view, const AtToolPoint& at) {
    return "lowest at " + position_text(view.shown, at.set_by[1].position) + ", highest at " +
           position_text(view.shown, at.set_by[0].position);
}

/// Not one of the openings of series: a series may be called "tool-point-x".
std::string tool_point_anchor(const SeriesView& view) { return "tool-point-" + view.series.id; }

/// Both approaches together: a constant part is arbitrary, for an angle has no zero.
Deviation mean_effect(const AtToolPoint& at) {
    Deviation sum(0.0, at.unit);
    double count = 0;
    for (const auto& target : at.targets)
        for (const Approach approach : document::both_approaches)
            if (const auto& effect = target.effect[approach]) sum = sum + *effect, ++count;
    return count > 0 ? sum / count : sum;
}

/// Every mean lower by so much.
void lower(evaluate::SeriesEvaluation& series, const Deviation& by) {
    for (TargetEvaluation& target : series.targets) {
        for (const Approach approach : document::both_approaches)
            if (auto& mean = target.one_way[approach].mean) mean = *mean - by;
        if (target.mean) target.mean = *target.mean - by;
    }
}

/// The curve as it is there, over the one that was measured. Its verdicts are those of the measured one: it has no limit.
DeviationPlot moved_plot(const Subject& subject, const SeriesView& view) {
    const AtToolPoint& at = *view.evaluation.at_tool_point;
    auto there = evaluate::at_functional_point(subject.document, view.evaluation);
    if (view.evaluation.kind == evaluate::SeriesKind::Positioning) lower(there, mean_effect(at));
    DeviationPlot plot = deviation_plot(subject.document, view.series, there, view.shown);
    plot.series_id = "tool-point-" + view.series.id;
    plot.limit.reset();
    plot.excluded.clear();
    plot.trace.clear();
    plot.pale_means = {.words = "means as measured",
                       .targets = deviation_plot(subject.document, view.series, view.evaluation, view.shown).targets};
    plot.alternative = series_title(subject.document, view.series) + " at the functional point, against position on axis " +
                       view.series.error.axis + ", over the means as measured in pale lines.";
    if (const auto curve = mean_curve_of(plot); !curve.empty()) plot.alternative += " " + curve_words(curve, view.shown);
    plot.alternative += " Over the travel and both approaches the effect of the angles changes by " + largest_text(view, *at.largest) +
                        ", " + extremes_words(view, at) + ".";
    return plot;
}

Panel moved_panel(const Subject& subject, const SeriesView& view) {
    const AtToolPoint& at = *view.evaluation.at_tool_point;
    Panel panel{.anchor = tool_point_anchor(view),
                .name = quantity_title(subject.document, view.series.error),
                .title = "at the functional point, over as measured / " + std::string(view.shown.unit.symbol),
                .plot = moved_plot(subject, view)};
    panel.verdict.word = Text("Range " + largest_text(view, *at.largest));
    panel.verdict.margin = Text("effect of the angles " + extremes_words(view, at));
    const auto speaks = headline(view);
    const bool is_E = view.evaluation.kind == evaluate::SeriesKind::Positioning;
    panel.table_title = (is_E ? "Error E / " : "Straightness error / ") + std::string(view.shown.unit.symbol);
    if (speaks) {
        const ChangeTexts texts = change_texts(view.shown, *value_of(*speaks->measured), *value_of(*speaks->moved), view.shown.decimals);
        panel.rows = {{Text("measured"), Text(texts.first)},
                      {Text("at the functional point"), Text().strong(texts.second)},
                      {Text("change"), Text(texts.change)}};
    }
    panel.rows.emplace_back(Text("effect, range"), Text(result_number(view.shown, *at.largest, view.shown.decimals)));
    return panel;
}

/// One direction's own results stand only where there is no other.
bool worth_a_row(const SeriesView& view, const std::string& parameter) {
    if (!direction_of(parameter)) return true;
    return !value_of_parameter(view.evaluation, parameter.substr(0, parameter.rfind('_')));
}

PlainTable side_by_side(const Subject& subject, const Views& drawn) {
    PlainTable table{.columns = {
        {"Result", 0.46}, {"measured", 0.12, numbers}, {"at the functional point, additional", 0.3, numbers},
        {"change", 0.12, numbers}}};
    for (const SeriesView* view : drawn) {
        for (const Moved& one : moved_parameters(*view)) {
            const Deviation *before = value_of(*one.measured), *after = value_of(*one.moved);
            // A slope of a length error is an angle and has its own unit; it stands in the squareness and in the full output.
            if (!before || !after || before->dimension() != view->shown.unit.dimension || !worth_a_row(*view, one.moved->name)) continue;
            const std::string symbol = parameter_symbol(one.moved->name);
            Text name(quantity_title(subject.document, view->series.error) + ", ");
            const std::string words = parameter_words(symbol.empty()                ? one.moved->name
                                                      : one.moved->name == "B_mean" ? "B_mean"
                                                                                    : symbol,
                                                      view->evaluation.standard);
            name.plain(uncapitalised(words)).symbol(symbol.empty() ? "" : " " + symbol);
            name.plain(" / " + std::string(view->shown.unit.symbol));
            const ChangeTexts texts = change_texts(view->shown, *before, *after, parameter_decimals(subject, *view, one.moved->name));
            table.rows.push_back({name, Text(texts.first), Text(texts.second), Text(texts.change)});
        }
    }
    return table;
}

std::vector<Text> reasons_of(const Subject& subject, const Views& group) {
    std::vector<Text> reasons;
    for (const SeriesView* view : group) {
        if (view->evaluation.at_tool_point->from.empty() && view->evaluation.at_tool_point->largest)
            reasons.emplace_back(quantity_title(subject.document, view->series.error) +
                                 " stays as measured: no lever arm in this direction.");
        for (const auto& parameter : view->evaluation.at_tool_point->parameters) {
            const auto* reason = std::get_if<evaluate::NotEvaluated>(&parameter.value);
            if (!reason) continue;
            reasons.emplace_back(quantity_title(subject.document, view->series.error) +
                                 " at the functional point is not evaluated: " + reason->reason + ".");
            break;
        }
    }
    return reasons;
}

std::string formula(const document::ErrorSymbol& error) {
    const std::string& axis = error.axis;
    if (error.direction == 'X') return "EX" + axis + " + EB" + axis + " tZ \u2212 EC" + axis + " tY";
    if (error.direction == 'Y') return "EY" + axis + " + EC" + axis + " tX \u2212 EA" + axis + " tZ";
    return "EZ" + axis + " + EA" + axis + " tY \u2212 EB" + axis + " tX";
}

/// "EBX 6.0 µm, ECX 1.2 µm": range of each angle's own effect there, whatever direction it is in.
std::string angles_alone(const Subject& subject, const Views& group) {
    std::vector<std::string> effects;
    const SeriesView& first = *group.front();
    for (const auto& angles : subject.evaluation.series) {
        const bool same = angles.error.axis == first.series.error.axis && angles.state == first.evaluation.state;
        if (angles.kind != evaluate::SeriesKind::Angle || !same || !angles.at_tool_point || !angles.at_tool_point->largest) continue;
        effects.push_back(angles.error.text() + " " + largest_text(first, *angles.at_tool_point->largest));
    }
    return effects.empty() ? "" : listed(effects) + ": range of its effect, across its own axis";
}

FactTable tool_point_facts(const Subject& subject, const Views& group, const std::vector<Text>& reasons) {
    std::vector<Fact> facts;
    const units::NumberStyle style = style_of(subject);
    std::vector<std::string> offsets, formulas, from;
    for (const SeriesView* view : group) {
        const AtToolPoint& at = *view->evaluation.at_tool_point;
        add_once(offsets, "(" + units::number(at.offset_mm[0], 1, style) + ", " + units::number(at.offset_mm[1], 1, style) + ", " +
                              with_unit(units::number(at.offset_mm[2], 1, style) + ")", "mm"));
        add_once(formulas, formula(view->series.error));
        for (const std::string& id : at.from)
            if (const auto* series = document::find_series(subject.document, id)) add_once(from, series_name(*series));
    }
    add_fact(facts, "Offset t in X, Y, Z", listed(offsets) + ", from the measurement line to the functional point");
    add_fact(facts, "Formula", listed(formulas) + " (rigid body, derived; Abbe’s and Bryan’s principles)");
    add_fact(facts, "Angles used", listed(from) + ": their means in each approach, joined by straight lines");
    add_fact(facts, "Each angle alone", angles_alone(subject, group));
    if (!reasons.empty()) facts.push_back({"Not moved", reasons});
    return {facts};
}

Section measured_and_moved(const Subject& subject, const Views& drawn, const std::vector<Text>& reasons) {
    return {.heading = "Measured, and at the functional point",
            .parts = {side_by_side(subject, drawn), tool_point_facts(subject, drawn, reasons)}};
}

Views drawable_of(const Views& group) {
    Views drawn;
    std::ranges::copy_if(group, std::back_inserter(drawn), drawable);
    return drawn;
}

Block block_of(const Subject& subject, const Views& group) {
    const SeriesView& first = *group.front();
    const Views drawn = drawable_of(group);
    const std::string label = "Functional point of " + first.series.error.axis + state_suffix(first.series.state);
    const auto reasons = reasons_of(subject, group);
    if (drawn.empty()) {
        Sections none;
        none.opening = {.label = label,
                        .anchor = tool_point_anchor(first),
                        .lead = Text("The effect of the angular error motions at the functional point is not evaluated.")};
        none.sections.push_back({.heading = "Reasons", .parts = {BulletList{reasons}}});
        return none;
    }
    Panels made;
    made.opening = {
        .label = label,
        .anchor = tool_point_anchor(*drawn.front()),
        .lead = tool_point_lead(subject, drawn),
        .body = Text("An additional result beside the measured one, whose verdicts, uncertainties, A and R stand. An angle has no zero, "
                     "so a constant part of its effect is arbitrary: the mean effect is drawn as 0.")};
    for (const SeriesView* view : drawn) made.panels.push_back(moved_panel(subject, *view));
    const bool straight = std::ranges::any_of(
        drawn, [](const SeriesView* view) { return view->evaluation.kind == evaluate::SeriesKind::Straightness; });
    made.caption = Text("At the functional point along " + first.series.error.axis + ", over the means as measured in pale lines" +
                        (drawn.size() > 1 ? ", on one scale" : "") +
                        (straight ? "; a straightness error about its own line" : "") +
                        ". Numbered ticks show the targets that set each range there; the bracket measures it.");
    made.sections.push_back(measured_and_moved(subject, drawn, reasons));
    return made;
}

/// Facts that the page of the axis says in the same words, in the state that it shows.
void leave_out_shared(FactTable& table, const Subject& subject, const SeriesView& first, const std::vector<std::string>& superseded) {
    const std::vector<Views> groups = groups_of(subject.views);
    const auto shown = std::ranges::find_if(groups, [&](const Views& other) {
        const Views drawn = drawable_of(other);
        return !drawn.empty() && other.front()->series.error.axis == first.series.error.axis &&
               std::ranges::find(superseded, drawn.front()->series.id) == superseded.end();
    });
    if (shown == groups.end()) return;
    const FactTable said = tool_point_facts(subject, drawable_of(*shown), reasons_of(subject, *shown));
    std::vector<std::string> left_out;
    std::erase_if(table.facts, [&](const Fact& fact) {
        const bool shared =
            std::ranges::any_of(said.facts, [&](const Fact& one) { return one.name == fact.name && one.lines == fact.lines; });
        if (shared) left_out.push_back(left_out.empty() ? fact.name : uncapitalised(fact.name));
        return shared;
    });
    if (!left_out.empty())
        table.facts.push_back({"The same" + state_suffix(shown->front()->series.state), {Text(listed(left_out) + ".")}});
}

}  // namespace

std::vector<Block> tool_points(const Subject& subject) {
    std::vector<Block> blocks;
    const auto& views = subject.views;
    for (const Views& group : groups_of(views)) blocks.push_back(block_of(subject, group));
    return blocks;
}

std::vector<Section> tool_point_numbers(const Subject& subject, const std::vector<std::string>& ids) {
    std::vector<Section> sections;
    for (const Views& group : groups_of(subject.views)) {
        const Views drawn = drawable_of(group);
        if (drawn.empty() || std::ranges::find(ids, drawn.front()->series.id) == ids.end()) continue;
        Section section = measured_and_moved(subject, drawn, reasons_of(subject, group));
        leave_out_shared(std::get<FactTable>(section.parts.back()), subject, *drawn.front(), ids);
        section.heading += state_suffix(drawn.front()->series.state);
        section.parts.insert(section.parts.begin(), Paragraph{tool_point_lead(subject, drawn)});
        sections.push_back(std::move(section));
    }
    return sections;
}

}  // namespace wayfolio::report
