#include "report/words/subject.hpp"

#include <algorithm>

namespace wayfolio::report {

std::vector<SeriesView> series_views(const Subject& subject) {
    std::vector<SeriesView> views;
    for (const document::Series& series : subject.document.series) {
        const auto* evaluation = evaluate::find_series(subject.evaluation, series.id);
        if (!evaluation) continue;
        views.push_back({series, *evaluation, shown_of(subject.layout, series, evaluation->unit), shown_of(subject.layout, series, series.unit)});
    }
    return views;
}

std::optional<Deviation> expanded_of(const Subject& subject, std::string_view series, std::string_view parameter) {
    const auto* uncertainty = evaluate::find_uncertainty(subject.evaluation, series, parameter);
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
    return Text("\u2013");
}

std::string opening_anchor(std::string_view series) { return "opening-" + std::string(series); }
std::string readings_anchor(std::string_view series) { return "readings-" + std::string(series); }

std::size_t runs_each_way(const evaluate::SeriesEvaluation& series) {
    std::size_t most = 0;
    for (const auto& target : series.targets) most = std::max({most, target.one_way.positive.n, target.one_way.negative.n});
    return most;
}

}  // namespace wayfolio::report
