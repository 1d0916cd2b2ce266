#include "report/words/subject.hpp"

#include "document/states.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <cmath>

namespace wayfolio::report {

Subject::Subject(const document::Document& document, const evaluate::Evaluation& evaluation, const layouts::Layout& layout)
    : document(document), evaluation(evaluation), layout(layout), units(shown_units(document, evaluation, layout)) {
    const units::NumberStyle style = style_of(*this);
    for (const document::Series& series : document.series) {
        const auto* evaluated = evaluate::find_series(evaluation, series.id);
        if (!evaluated) continue;
        SeriesView view{series, *evaluated, shown_of(units, series, evaluated->unit, style), shown_of(units, series, series.unit, style)};
        view.shown.decimals = parameter_decimals(*this, view, headline_parameter(series, *evaluated));
        views.push_back(std::move(view));
    }
}

units::NumberStyle style_of(const Subject& subject) { return {subject.layout.decimal_mark}; }

Shown squareness_shown(const Subject& subject) { return {.unit = subject.units.squareness, .style = style_of(subject)}; }

const SeriesView* find_view(const std::vector<SeriesView>& views, std::string_view id) {
    const auto found = std::ranges::find_if(views, [&](const SeriesView& view) { return view.series.id == id; });
    return found == views.end() ? nullptr : &*found;
}

bool same_axis_and_state(const SeriesView& a, const SeriesView& b) {
    return a.series.error.axis == b.series.error.axis && a.series.state == b.series.state;
}

std::vector<SeriesView> answering_series(const Subject& subject) {
    const std::vector<SeriesView>& views = subject.views;
    const auto compared = states_compared(subject.document);
    if (!compared) return views;
    const auto same_quantity = [](const SeriesView& a, const SeriesView& b) {
        return a.series.error == b.series.error && a.series.unit.dimension == b.series.unit.dimension;
    };
    std::vector<SeriesView> answering;
    for (const SeriesView& view : views) {
        if (view.series.state == compared->second || view.series.state.empty()) answering.push_back(view);
    }
    // What was not measured in that state is answered by the latest measurement there is.
    const std::vector<SeriesView> of_that_state = answering;
    for (const SeriesView& view : views) {
        const auto same = [&](const SeriesView& other) { return same_quantity(other, view); };
        if (std::ranges::any_of(of_that_state, same)) continue;
        const auto latest = std::ranges::find_if(views.rbegin(), views.rend(), same);
        if (latest->series.state == view.series.state) answering.push_back(view);
    }
    return answering;
}

std::string other_state_suffix(const document::Document& document, std::string_view state) {
    const auto compared = states_compared(document);
    return compared && state != compared->second ? state_suffix(state) : "";
}

std::optional<Deviation> expanded_of(const Subject& subject, std::string_view series, std::string_view parameter) {
    const auto* uncertainty = evaluate::find_uncertainty(subject.evaluation, series, parameter);
    return uncertainty ? std::optional(uncertainty->expanded) : std::nullopt;
}

std::optional<Deviation> expanded_of(const Subject& subject, const evaluate::SquarenessEvaluation& squareness) {
    const auto* uncertainty = evaluate::find_uncertainty(subject.evaluation, squareness);
    return uncertainty ? std::optional(uncertainty->expanded) : std::nullopt;
}

std::optional<Deviation> value_of_parameter(const evaluate::SeriesEvaluation& series, std::string_view parameter) {
    const auto* found = evaluate::find_parameter(series, parameter);
    if (!found) return std::nullopt;
    const Deviation* value = evaluate::value_of(found->value);
    return value ? std::optional(*value) : std::nullopt;
}

std::optional<Deviation> known_value(const evaluate::SeriesEvaluation& series, std::string_view parameter) {
    const auto* found = evaluate::find_parameter(series, parameter);
    if (!found) return std::nullopt;
    const Deviation* value = evaluate::value_of(found->value);
    return value ? std::optional(*value) : found->stated;
}

int parameter_decimals(const Subject& subject, const SeriesView& view, std::string_view parameter) {
    const auto U = expanded_of(subject, view.series.id, parameter);
    // A value that was stated keeps the digits it was stated with.
    if (!U && !value_of_parameter(view.evaluation, parameter))
        for (const document::StatedValue& stated : view.series.stated)
            if (stated.parameter == parameter && stated.value.dimension() == view.shown.unit.dimension)
                return units::decimals_of_step((stated.half_last_digit * 2.0).in(view.shown.unit));
    const auto* decision = find_decision(subject.evaluation, view.series.id, parameter);
    if (decision && decision->value) return decided_decimals(*decision, view.shown);
    return result_decimals(view.shown, known_value(view.evaluation, parameter), U);
}

std::string parameter_text(const Subject& subject, const SeriesView& view, std::string_view parameter) {
    const auto value = known_value(view.evaluation, parameter);
    return value ? value_text(view.shown, *value, parameter_decimals(subject, view, parameter)) : no_value;
}

Text shown_result(const Subject& subject, const SeriesView& view, std::string_view parameter) {
    const auto U = expanded_of(subject, view.series.id, parameter);
    if (const auto value = value_of_parameter(view.evaluation, parameter))
        return Text(result_text(view.shown, *value, U, parameter_decimals(subject, view, parameter)));
    const auto* found = evaluate::find_parameter(view.evaluation, parameter);
    if (found && found->stated)
        return Text(result_text(view.shown, *found->stated, U, parameter_decimals(subject, view, parameter))).plain(", as stated");
    return Text(no_value);
}

std::optional<std::string> agreed_limits(const SeriesView& view) {
    std::vector<std::string> limits;
    for (const document::Tolerance& tolerance : view.series.tolerances) {
        const auto form = agreed_form(view.shown, tolerance);
        if (!form) continue;
        const std::string symbol = parameter_symbol(tolerance.parameter);
        std::string name = symbol.empty() ? uncapitalised(parameter_words(tolerance.parameter, view.evaluation.standard)) : symbol;
        if (tolerance.length_mm) name += " over " + length_text(view.shown, *tolerance.length_mm);
        limits.push_back(name + "\u00a0" + *form);
    }
    return limits.empty() ? std::nullopt
                          : std::optional((limits.size() == 1 ? "Limit as agreed: " : "Limits as agreed: ") + listed(limits) + ".");
}

std::string length_number(const Subject& subject, double um, int decimals) {
    const DeviationUnit& unit = subject.units.length;
    const int places = std::max(0, units::decimals_of_step(std::pow(10.0, -decimals) / unit.in_base));
    return units::number(um / unit.in_base, places, style_of(subject));
}

std::string length_words(const Subject& subject, double um, int decimals) {
    return with_unit(length_number(subject, um, decimals), subject.units.length.symbol);
}

std::string distance_text(const Subject& subject, double mm) {
    return length_text({.position = subject.units.linear, .style = style_of(subject)}, mm);
}

std::string opening_anchor(std::string_view series) { return "opening-" + std::string(series); }
std::string squareness_anchor(const Subject& subject, const evaluate::SquarenessEvaluation& squareness) {
    return "squareness-" + std::to_string(&squareness - subject.evaluation.squareness.data() + 1);
}
std::string readings_anchor(std::string_view series) { return "readings-" + std::string(series); }

std::size_t runs_each_way(const evaluate::SeriesEvaluation& series) {
    std::size_t most = 0;
    for (const auto& target : series.targets) most = std::max({most, target.one_way.positive.n, target.one_way.negative.n});
    return most;
}

}  // namespace wayfolio::report
