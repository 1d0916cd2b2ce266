#include "report/blocks/tables/tables.hpp"

#include "compare/comparison.hpp"
#include "report/words/judgements.hpp"
#include "report/words/names.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using compare::Comparison;
using compare::ParameterChange;

/// The change that weighs most against its uncertainty, of all parameters.
const ParameterChange* weightiest(const Comparison& changes) {
    const auto weight = [](const ParameterChange& change) { return change.against_U.value_or(-1); };
    const auto most = std::ranges::max_element(changes.parameters, {}, weight);
    return most == changes.parameters.end() || !most->against_U ? nullptr : &*most;
}

/// ": positioning (EXX), from inside to outside", of the one verdict that changed; nothing where a side has no limit.
std::string the_verdict(const Subject& now, const compare::VerdictChange& change) {
    const SeriesView* view = find_view(now.views, change.series);
    const auto* decision = find_decision(now.evaluation, change.series, change.parameter);
    if (!view || !decision || change.was == Standing::NoLimit || change.now == Standing::NoLimit) return {};
    const auto word = [](Standing standing) { return uncapitalised(std::string(evaluate::word(standing))); };
    return ": " + uncapitalised(decision_name(now, *view, *decision)) + " (" + view->series.error.text() + "), from " +
           word(change.was) + " to " + word(change.now);
}

/// "reversal error B, mean of EXX, as left"; "squareness of X and Y"
std::string name_of_change(const Subject& now, const ParameterChange& change) {
    const auto& views = now.views;
    const SeriesView* view = find_view(views, change.series);
    if (!view) return change.parameter + state_suffix(change.state);
    return uncapitalised(parameter_title(change, *view).words()) + " of " + change.error + state_suffix(change.state);
}

}  // namespace

Text comparison_lead(const Subject& now, const Comparison& changes) {
    if (changes.same()) return Text("Nothing differs: readings, settings and results are the same.");
    if (changes.series_compared == 0) return Text("The two have no quantity in common.");
    const auto differing = static_cast<std::size_t>(std::ranges::count_if(changes.parameters, &ParameterChange::differs));
    std::string results = differing == 0 ? "No result differs"
                                         : count_word(differing) + " of " + count_word(changes.parameters.size()) +
                                               (differing == 1 ? " parameters differs" : " parameters differ");
    const std::size_t verdicts = changes.verdicts.size();
    return Text(capitalised(results) + "; " +
                (verdicts == 0 ? "no verdict" : count_word(verdicts) + (verdicts == 1 ? " verdict" : " verdicts")) + " changed" +
                (verdicts == 1 ? the_verdict(now, changes.verdicts.front()) : "") + ".");
}

Text comparison_body(const Subject& now, const Comparison& changes) {
    const ParameterChange* most = weightiest(changes);
    if (!most || *most->against_U == 0) return {};
    const std::string words = name_of_change(now, *most);
    const std::string times = change_numbers(*most, shown_of_change(*most, now)).of_U;
    return Text("Against its uncertainty, most changed the " + words + ": by " + times + " times " +
                (*most->against_U > 1 ? "its uncertainty." : "its uncertainty, which is no more than the uncertainty explains."));
}

}  // namespace wayfolio::report
