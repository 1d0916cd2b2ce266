#include "report/words/subject.hpp"

#include "document/states.hpp"
#include "report/words/names.hpp"

namespace wayfolio::report {

units::NumberStyle style_of(const Subject& subject) { return {subject.layout.decimal_mark}; }

std::vector<SeriesView> series_views(const Subject& subject) {
    std::vector<SeriesView> views;
    for (const document::Series& series : subject.document.series) {
        const auto* evaluation = evaluate::find_series(subject.evaluation, series.id);
        if (!evaluation) continue;
        views.push_back(
            {series, *evaluation, shown_of(subject.layout, series, evaluation->unit), shown_of(subject.layout, series, series.unit)});
    }
    return views;
}

const SeriesView* find_view(const std::vector<SeriesView>& views, std::string_view id) {
    const auto found = std::ranges::find_if(views, [&](const SeriesView& view) { return view.series.id == id; });
    return found == views.end() ? nullptr : &*found;
}

bool same_axis_and_state(const SeriesView& a, const SeriesView& b) {
    return a.series.error.axis == b.series.error.axis && a.series.state == b.series.state;
}

std::vector<SeriesView> answering_series(const Subject& subject) {
    std::vector<SeriesView> views = series_views(subject);
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

Text shown_result(const Subject& subject, const SeriesView& view, std::string_view parameter) {
    const auto U = expanded_of(subject, view.series.id, parameter);
    if (const auto value = value_of_parameter(view.evaluation, parameter)) return Text(result_text(view.shown, *value, U));
    const auto* found = evaluate::find_parameter(view.evaluation, parameter);
    if (found && found->stated) return Text(result_text(view.shown, *found->stated, U)).plain(", as stated");
    return Text(no_value);
}

std::string opening_anchor(std::string_view series) { return "opening-" + std::string(series); }
std::string readings_anchor(std::string_view series) { return "readings-" + std::string(series); }

std::size_t runs_each_way(const evaluate::SeriesEvaluation& series) {
    std::size_t most = 0;
    for (const auto& target : series.targets) most = std::max({most, target.one_way.positive.n, target.one_way.negative.n});
    return most;
}

}  // namespace wayfolio::report
