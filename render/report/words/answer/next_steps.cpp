#include "report/words/passages.hpp"

#include "report/words/judgements.hpp"
#include "report/words/names.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::BudgetLine;
using evaluate::Decision;
using evaluate::ParameterUncertainty;

constexpr std::string_view advice_opening = "What to do next:";

std::vector<Judgement> worst_first(std::vector<Judgement> all) {
    std::ranges::stable_sort(all, {}, [](const Judgement& one) { return severity(one.decision); });
    return all;
}

const ParameterUncertainty* entry_of(const Subject& subject, const Decision& decision) {
    const auto of_it = [&](const ParameterUncertainty& entry) {
        return entry.series == decision.series && entry.parameter == decision.parameter && entry.axes == decision.axes &&
               (!entry.length_mm || entry.length_mm == decision.length_mm);
    };
    const auto& all = subject.evaluation.uncertainty;
    const auto found = std::ranges::find_if(all, of_it);
    return found == all.end() ? nullptr : &*found;
}

/// A bound that must be kept, with two digits: rounded so that what is printed keeps it too.
enum class Bound { AtMost, AtLeast };
std::string bound_text(const Shown& shown, double number, Bound bound) {
    const int decimals = units::decimals_for_uncertainty(number);
    const double step = std::pow(10.0, -decimals);
    constexpr double rounding = 1e-9;
    const double steps = bound == Bound::AtMost ? std::floor(number / step + rounding) : std::ceil(number / step - rounding);
    return with_unit(units::number(steps * step, decimals, shown.style), shown.unit.symbol);
}

std::string two_digits(const Shown& shown, double number) {
    return units::number(number, units::decimals_for_uncertainty(number), shown.style);
}

/// A contributor that stands in the root by itself; what was added to others before squaring cannot be lowered alone.
const BudgetLine* largest_alone(const ParameterUncertainty& entry) {
    const BudgetLine* largest = nullptr;
    for (const BudgetLine& line : entry.contributors)
        if (line.correlated.empty() && (!largest || line.share > largest->share)) largest = &line;
    return largest;
}

/// A known bias stands in U beside the root, whatever becomes of the root's parts.
double bias_of(const ParameterUncertainty& entry, const Shown& shown) {
    return entry.known_bias ? std::abs(entry.known_bias->in(shown.unit)) : 0;
}

/// " For that its largest contribution, expansion coefficient, has to fall from 1.6 to 0.41 µm (standard uncertainty)."
Text contributor_words(const ParameterUncertainty& entry, const Shown& shown, double most_U) {
    if (entry.raised_to_capability)
        return Text(" It is the calibration and measurement capability (CMC) of the laboratory; no better set-up lowers it.");
    const BudgetLine* largest = largest_alone(entry);
    if (!largest || largest->standard.in(shown.unit) == 0) return {};
    const double bias = bias_of(entry, shown);
    const double u = (entry.expanded.in(shown.unit) - bias) / entry.coverage_factor, most_u = (most_U - bias) / entry.coverage_factor;
    const double own = std::abs(largest->standard.in(shown.unit)), others = u * u - own * own, left = most_u * most_u - others;
    if (left > 0)
        return Text(" For that its largest contribution, " + largest->name + ", has to fall from " + two_digits(shown, own) + " to " +
                    bound_text(shown, std::sqrt(left), Bound::AtMost) + " (standard uncertainty).");
    const double without = entry.coverage_factor * std::sqrt(std::max(0.0, others)) + bias;
    if (!(without > 0)) return {};
    return Text(" Even without its largest input quantity, " + largest->name + ", ")
        .symbol("U")
        .plain(" is " + with_unit(two_digits(shown, without), shown.unit.symbol) + ".");
}

/// Where the value itself keeps its limit, a smaller U decides: how small, and what of it.
Text smaller_U(const Subject& subject, const Judgement& one) {
    const Decision& decision = *one.decision;
    const double room = (decision.limit - judged_value(decision)).in(one.shown.unit), U = decision.expanded->in(one.shown.unit);
    const double guard = decision.guard->in(one.shown.unit);
    const ParameterUncertainty* entry = entry_of(subject, decision);
    const double bias = entry ? bias_of(*entry, one.shown) : 0;
    if (!(room > bias) || !(guard > bias) || !(U > bias)) return {};
    const double most_U = bias + (room - bias) * (U - bias) / (guard - bias);
    const bool already = evaluate::standing_of(one.decision) == Standing::InsideByLess;
    Text text(one.name + (already ? " is inside by more than " : " is inside once "));
    if (already) text.symbol("U").plain(" once ");
    text.symbol("U").plain(" is no more than " + bound_text(one.shown, most_U, Bound::AtMost) + "; it is " +
                           with_unit(two_digits(one.shown, U), one.shown.unit.symbol) + ".");
    if (entry) text.append(contributor_words(*entry, one.shown, most_U));
    return text;
}

/// Otherwise the error has to become smaller: by how much, and where it is set.
Text smaller_error(const std::vector<SeriesView>& views, const Judgement& one) {
    const Decision& decision = *one.decision;
    const double over = (judged_value(decision) - decision.limit).in(one.shown.unit);
    const double guard = decision.guard ? decision.guard->in(one.shown.unit) : 0;
    Text text(one.name + " is inside once it is smaller by " + bound_text(one.shown, over + guard, Bound::AtLeast));
    const SeriesView* view = decision.axes || decision.length_mm ? nullptr : find_view(views, decision.series);
    const std::string places = view ? setting_places(*view, decision.parameter) : "";
    return text.plain(places.empty() ? "." : "; it is set at " + places + ".");
}

Text what_would_change(const Subject& subject, const std::vector<SeriesView>& views, const Judgement& one) {
    switch (evaluate::standing_of(one.decision)) {
        case Standing::NotEvaluated: return Text(one.name + " is not evaluated: " + one.decision->reason + ".");
        case Standing::InsideByLess: return smaller_U(subject, one);
        case Standing::NotAccepted:
        case Standing::Undecided: {
            const Text text = smaller_U(subject, one);
            return text.empty() ? smaller_error(views, one) : text;
        }
        case Standing::Outside:
        case Standing::OutsideByLess: return smaller_error(views, one);
        case Standing::Inside:
        case Standing::NoLimit: break;
    }
    return {};
}

}  // namespace

bool is_advice(std::string_view remark) { return remark.starts_with(advice_opening); }

std::string setting_places(const SeriesView& view, std::string_view parameter) {
    const evaluate::Parameter* found = evaluate::find_parameter(view.evaluation, parameter);
    if (!found) return {};
    std::vector<evaluate::SetBy> set = found->set_by;
    std::ranges::sort(set, {}, &evaluate::SetBy::position);
    std::vector<std::string> places;
    for (const evaluate::SetBy& one : set) add_once(places, position_text(view.shown, one.position));
    return listed(places);
}

std::vector<Text> what_next(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<Text> steps;
    for (const std::string& remark : subject.document.job.remarks) {
        if (!is_advice(remark)) continue;
        std::string words = remark.substr(advice_opening.size());
        words.erase(0, words.find_first_not_of(' '));
        steps.emplace_back(capitalised(words) + " (remark of the engineer)");
    }
    constexpr std::size_t most_named = 4;
    std::size_t named = 0;
    bool by_measuring = false;
    const std::vector<Judgement> all = judgements(subject, views);
    for (const Judgement& one : worst_first(all)) {
        Text step = what_would_change(subject, views, one);
        if (step.empty()) continue;
        by_measuring = by_measuring || one.decision->outcome != evaluate::Outcome::NotDecided;
        if (++named <= most_named) steps.push_back(std::move(step));
    }
    if (named > most_named)
        steps.emplace_back(capitalised(count_word(named - most_named)) + " more " + (named - most_named == 1 ? "value" : "values") +
                           " can change too: margins stand with every decision in numbers.");
    if (by_measuring) steps.emplace_back("After any adjustment measure again, on the same line and targets; verdicts can change.");
    if (steps.empty() && !all.empty())
        steps.emplace_back("Nothing has to be done for these limits. Keep the compensation that was in use during the measurement.");
    if (steps.empty()) steps.emplace_back("Agree limits and a decision rule if a statement of conformity is wanted.");
    return steps;
}

}  // namespace wayfolio::report
