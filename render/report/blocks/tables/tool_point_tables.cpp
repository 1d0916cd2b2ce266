#include "report/blocks/tables/tool_point_tables.hpp"

#include "report/words/names.hpp"
#include "report/words/passages.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::AtToolPoint;

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

/// One direction's own results stand only where there is no other.
bool worth_a_row(const SeriesView& view, const std::string& parameter) {
    if (!direction_of(parameter)) return true;
    return !value_of_parameter(view.evaluation, parameter.substr(0, parameter.rfind('_')));
}

/// The series of the same error in a state that the page shows beside its own; none: null.
const SeriesView* earlier_of(const MovedViews& earlier, const SeriesView& view) {
    const auto found = std::ranges::find_if(earlier, [&](const SeriesView* one) { return one->series.error == view.series.error; });
    return found == earlier.end() ? nullptr : *found;
}

/// Measured, moved and the change of one result; dashes where one of both is missing.
std::vector<Text> moved_cells(const Subject& subject, const SeriesView* view, const std::string& parameter) {
    const auto nothing = std::vector<Text>(3, Text(no_value));
    if (!view) return nothing;
    const auto all = moved_parameters(*view);
    const auto one = std::ranges::find_if(all, [&](const Moved& moved) { return moved.moved->name == parameter; });
    if (one == all.end() || !value_of(*one->measured) || !value_of(*one->moved)) return nothing;
    const ChangeTexts texts = change_texts(view->shown, *value_of(*one->measured), *value_of(*one->moved),
                                           parameter_decimals(subject, *view, parameter));
    return {Text(texts.first), Text(texts.second), Text(texts.change)};
}

PlainTable moved_table(const MovedViews& earlier) {
    if (earlier.empty())
        return {.columns = {{"Result", 0.46}, {"measured", 0.12, numbers}, {"at the functional point, additional", 0.3, numbers},
                            {"change", 0.12, numbers}}};
    const std::string before = state_words(earlier.front()->series.state);
    return {.columns = {{"Result", 0.41}, {"measured", 0.09, numbers}, {"moved", 0.08, numbers}, {"change", 0.08, numbers},
                        {before + ": measured", 0.18, numbers}, {"moved", 0.08, numbers}, {"change", 0.08, numbers}}};
}

PlainTable side_by_side(const Subject& subject, const MovedViews& drawn, const MovedViews& earlier) {
    PlainTable table = moved_table(earlier);
    for (const SeriesView* view : drawn) {
        for (const Moved& one : moved_parameters(*view)) {
            const Deviation *before = value_of(*one.measured), *after = value_of(*one.moved);
            const std::string& parameter = one.moved->name;
            // A slope of a length error is an angle and has its own unit; it stands in the squareness and in the full output.
            if (!before || !after || before->dimension() != view->shown.unit.dimension || !worth_a_row(*view, parameter)) continue;
            const std::string symbol = parameter_symbol(parameter);
            Text name(quantity_title(subject.document, view->series.error) + ", ");
            const std::string words = parameter_words(symbol.empty()          ? parameter
                                                      : parameter == "B_mean" ? "B_mean"
                                                                              : symbol,
                                                      view->evaluation.standard);
            name.plain(uncapitalised(words)).symbol(symbol.empty() ? "" : " " + symbol);
            name.plain(" / " + std::string(view->shown.unit.symbol));
            std::vector<Text> row{std::move(name)};
            std::ranges::move(moved_cells(subject, view, parameter), std::back_inserter(row));
            if (!earlier.empty())
                std::ranges::move(moved_cells(subject, earlier_of(earlier, *view), parameter), std::back_inserter(row));
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

std::string formula(const document::ErrorSymbol& error) {
    const std::string& axis = error.axis;
    if (error.direction == 'X') return "EX" + axis + " + EB" + axis + " tZ \u2212 EC" + axis + " tY";
    if (error.direction == 'Y') return "EY" + axis + " + EC" + axis + " tX \u2212 EA" + axis + " tZ";
    return "EZ" + axis + " + EA" + axis + " tY \u2212 EB" + axis + " tX";
}

/// "EBX 6.0 µm, ECX 1.2 µm": range of each angle's own effect there, whatever direction it is in.
std::string angles_alone(const Subject& subject, const MovedViews& group) {
    std::vector<std::string> effects;
    const SeriesView& first = *group.front();
    for (const auto& angles : subject.evaluation.series) {
        const bool same = angles.error.axis == first.series.error.axis && angles.state == first.evaluation.state;
        if (angles.kind != evaluate::SeriesKind::Angle || !same || !angles.at_tool_point || !angles.at_tool_point->largest) continue;
        effects.push_back(angles.error.text() + " " + effect_text(first, *angles.at_tool_point->largest));
    }
    return effects.empty() ? "" : listed(effects) + ": range of its effect across its axis";
}

FactTable tool_point_facts(const Subject& subject, const MovedViews& group, const std::vector<Text>& reasons) {
    std::vector<Fact> facts;
    add_fact(facts, "Additional",
             "Verdicts, U, A and R stay those of the measured results. An angle has no zero: the mean effect is drawn as 0.");
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

/// What the angles did in the state that is shown in numbers only: what differs from what is said of the other.
Fact earlier_fact(const Subject& subject, const MovedViews& earlier, const FactTable& said) {
    Text words = tool_point_lead(subject, earlier);
    const FactTable known = tool_point_facts(subject, earlier, tool_point_reasons(subject, earlier));
    for (const Fact& one : known.facts) {
        const bool shared =
            std::ranges::any_of(said.facts, [&](const Fact& other) { return other.name == one.name && other.lines == one.lines; });
        if (shared) continue;
        words.plain(" " + one.name + ":");
        for (const Text& line : one.lines) words.plain(" ").append(line).plain(line.words().ends_with('.') ? "" : ".");
    }
    return {.name = capitalised(state_words(earlier.front()->series.state)), .lines = {std::move(words)}};
}

}  // namespace

std::vector<MovedViews> moved_groups(const std::vector<SeriesView>& views) {
    MovedViews moved;
    for (const SeriesView& view : views)
        if (view.evaluation.at_tool_point && view.evaluation.kind != evaluate::SeriesKind::Angle) moved.push_back(&view);
    const auto fits = [](const SeriesView* first, const SeriesView* view) { return same_axis_and_state(*first, *view); };
    return grouped(moved, fits, moved.size());
}

MovedViews drawable_of(const MovedViews& group) {
    MovedViews drawn;
    std::ranges::copy_if(group, std::back_inserter(drawn), drawable);
    return drawn;
}

std::string effect_text(const SeriesView& view, const Deviation& value) {
    return with_unit(result_number(view.shown, value, view.shown.decimals), view.shown.unit.symbol);
}

Text tool_point_lead(const Subject& subject, const MovedViews& drawn) {
    const auto size = [](const SeriesView* view) { return view->evaluation.at_tool_point->largest->in(units::micrometre); };
    const SeriesView& most = **std::ranges::max_element(drawn, {}, size);
    const auto& at = *most.evaluation.at_tool_point;
    Text lead("At the functional point the angular error motions change " + quantity_of_axis(subject.document, most.series.error) + " by " +
              effect_text(most, *at.largest) + " over the travel");
    if (const auto speaks = headline(most)) {
        if (speaks->moved->name == "E") lead.plain("; ").symbol("E");
        else lead.plain("; it");
        lead.plain(" becomes " + effect_text(most, *value_of(*speaks->moved)) + " instead of " +
                   effect_text(most, *value_of(*speaks->measured)));
    }
    return lead.plain(".");
}

std::vector<Text> tool_point_reasons(const Subject& subject, const MovedViews& group) {
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

Section measured_and_moved(const Subject& subject, const MovedViews& drawn, const MovedViews& earlier, const std::vector<Text>& reasons) {
    FactTable facts = tool_point_facts(subject, drawn, reasons);
    if (!earlier.empty()) {
        const Fact before = earlier_fact(subject, earlier, facts);
        facts.facts.push_back(before);
    }
    return {.heading = "Measured, and at the functional point", .parts = {side_by_side(subject, drawn, earlier), std::move(facts)}};
}

}  // namespace wayfolio::report
