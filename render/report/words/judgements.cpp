#include "report/words/judgements.hpp"

#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <iterator>

namespace wayfolio::report {
namespace {

using evaluate::Decision;
using evaluate::SquarenessEvaluation;

std::string judged_name(const Subject& subject, const std::vector<SeriesView>& views, const SeriesView& view, const Decision& decision) {
    const bool several_axes =
        std::ranges::any_of(views, [&](const SeriesView& v) { return v.series.error.axis != views[0].series.error.axis; });
    const std::string name = decision_name(subject, view, decision);
    return name + (several_axes ? " of " + view.series.error.axis : "") + other_state_suffix(subject.document, view.series.state);
}

std::optional<Judgement> squareness_judgement(const Subject& subject, const std::vector<SeriesView>& views, const Decision& decision) {
    for (const SquarenessEvaluation* squareness : answering_squareness(subject, views)) {
        if (squareness->axes != *decision.axes || squareness->series[0] != decision.series) continue;
        const auto* first = document::find_series(subject.document, squareness->series[0]);
        const std::string state = first ? other_state_suffix(subject.document, first->state) : "";
        return Judgement{&decision, squareness_name(squareness->axes) + state, squareness->symbol, squareness_shown(subject)};
    }
    return std::nullopt;
}

}  // namespace

std::string decision_name(const Subject& subject, const SeriesView& view, const Decision& decision) {
    const std::string name = quantity_name(subject.document, view.series.error);
    if (decision.length_mm) return "Local s" + name.substr(1) + " over " + length_text(view.shown, *decision.length_mm);
    if (decision.parameter == headline_parameter(view.series, view.evaluation)) return name;
    const std::string symbol = parameter_symbol(decision.parameter);
    const std::size_t side = decision.parameter.find('_');
    const std::string base = decision.parameter.substr(0, side);
    // "positive" of "straightness_positive"; all of "slope" or "vdi_P", which the quantity's name does not say.
    const bool said = !symbol.empty() || base == "straightness" || base == "angle";
    std::string rest = !said ? ", " + decision.parameter : side == std::string::npos ? "" : ", " + decision.parameter.substr(side + 1);
    std::ranges::replace(rest, '_', ' ');
    if (symbol.empty()) return name + rest;
    const std::string words = parameter_words(symbol, view.evaluation.standard) + "\u00a0" + symbol + rest;
    return view.evaluation.kind == evaluate::SeriesKind::Positioning ? words : words + " of " + uncapitalised(name);
}

std::vector<const SquarenessEvaluation*> answering_squareness(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<const SquarenessEvaluation*> answering;
    for (const SquarenessEvaluation& one : subject.evaluation.squareness) {
        const bool later = std::ranges::any_of(subject.evaluation.squareness, [&](const SquarenessEvaluation& other) {
            return other.axes == one.axes && find_view(views, other.series[0]);
        });
        if (find_view(views, one.series[0]) || !later) answering.push_back(&one);
    }
    return answering;
}

std::string squareness_name(const std::array<std::string, 2>& axes) { return "Squareness error of " + axes[0] + " and " + axes[1]; }

std::vector<Judgement> judgements(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Judgement> all;
    for (const Decision& decision : subject.evaluation.decisions) {
        if (decision.axes) {
            if (auto made = squareness_judgement(subject, views, decision)) all.push_back(std::move(*made));
            continue;
        }
        const SeriesView* view = find_view(views, decision.series);
        if (!view) continue;
        all.push_back({&decision, judged_name(subject, views, *view, decision), view->series.error.text(), view->shown});
    }
    return all;
}

std::vector<Judgement> of_standing(const std::vector<Judgement>& all, Standing standing) {
    std::vector<Judgement> those;
    std::ranges::copy_if(all, std::back_inserter(those),
                         [&](const Judgement& one) { return evaluate::standing_of(one.decision) == standing; });
    return those;
}

}  // namespace wayfolio::report
