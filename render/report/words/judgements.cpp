#include "report/words/judgements.hpp"

#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::Decision;
using evaluate::Outcome;
using evaluate::SquarenessEvaluation;

std::string judged_name(const Subject& subject, const std::vector<SeriesView>& views, const SeriesView& view, const Decision& decision) {
    const bool several_axes =
        std::ranges::any_of(views, [&](const SeriesView& v) { return v.series.error.axis != views[0].series.error.axis; });
    const std::string name = decision_name(subject, view, decision);
    return several_axes ? name + " of " + view.series.error.axis : name;
}

std::optional<Judgement> squareness_judgement(const Subject& subject, const std::vector<SeriesView>& views, const Decision& decision) {
    for (const SquarenessEvaluation* squareness : answering_squareness(subject, views)) {
        if (squareness->axes != *decision.axes || squareness->series[0] != decision.series) continue;
        return Judgement{&decision, "squareness " + squareness->symbol, squareness_name(squareness->axes), squareness->symbol,
                         squareness_shown(subject.layout)};
    }
    return std::nullopt;
}

}  // namespace

std::string decision_name(const Subject& subject, const SeriesView& view, const Decision& decision) {
    const std::string name = quantity_name(subject.document, view.series.error);
    if (decision.length_mm) return "Local s" + name.substr(1);
    if (decision.parameter == headline_parameter(view.series, view.evaluation)) return name;
    const std::string symbol = parameter_symbol(decision.parameter);
    return parameter_words(symbol.empty() ? decision.parameter : symbol, view.evaluation.standard) +
           (symbol.empty() ? "" : "\u00a0" + symbol);
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

Shown squareness_shown(const layouts::Layout& layout) {
    return {.unit = units::deviation_unit(layout.angle.unit).value_or(units::microradian),
            .decimals = layout.angle.decimals,
            .statistics_decimals = layout.angle.statistics_decimals,
            .style = {layout.decimal_mark}};
}

std::string squareness_name(const std::array<std::string, 2>& axes) { return "Squareness of " + axes[0] + " and " + axes[1]; }

std::vector<Judgement> judgements(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Judgement> all;
    for (const Decision& decision : subject.evaluation.decisions) {
        if (decision.axes) {
            if (auto made = squareness_judgement(subject, views, decision)) all.push_back(std::move(*made));
            continue;
        }
        const SeriesView* view = find_view(views, decision.series);
        if (!view) continue;
        all.push_back({&decision, view->series.id, judged_name(subject, views, *view, decision), view->series.error.text(), view->shown});
    }
    return all;
}

Tally tally(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Judgement> worst;
    for (Judgement& one : judgements(subject, views)) {
        const auto found = std::ranges::find(worst, one.quantity, &Judgement::quantity);
        if (found == worst.end()) worst.push_back(std::move(one));
        else if (severity(one.decision) < severity(found->decision)) *found = std::move(one);
    }
    Tally made{.quantities = views.size() + answering_squareness(subject, views).size(), .limited = worst.size()};
    for (const Judgement& one : worst) {
        switch (one.decision->outcome) {
            case Outcome::Pass: ++made.inside; break;
            case Outcome::Fail: made.outside.push_back(one); break;
            case Outcome::NotDecided: made.open.push_back(one); break;
            case Outcome::Undecided:
            case Outcome::ConditionalFail:
            case Outcome::ConditionalPass: made.undecided.push_back(one); break;
        }
    }
    return made;
}

}  // namespace wayfolio::report
