#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::Decision;
using evaluate::Outcome;
using document::DecisionRule;

double rounded(double value, int decimals) {
    const double step = std::pow(10.0, -decimals);
    return std::nearbyint(value / step) * step;
}

std::string amount(const PrintedMargin& margin, const Shown& shown) {
    return units::number(std::abs(margin.value), std::max(margin.decimals, 0), shown.style);
}

Text inside_margin(const Decision& decision, const Shown& shown, Verdict& verdict) {
    const bool after_U = decision.expanded.has_value() && decision.rule != DecisionRule::Simple;
    const PrintedMargin margin = printed_margin(decision, shown, after_U ? TakenOff::ValueAndU : TakenOff::Value);
    verdict.short_form = Text(verdict.word.words() + ", " + amount(margin, shown) + " to spare");
    Text text(with_unit(amount(margin, shown), shown.unit.symbol) + " to spare");
    if (after_U) text.plain(" after\u00a0").symbol("U");
    return text;
}

Text outside_margin(const Decision& decision, const Shown& shown, Verdict& verdict) {
    const PrintedMargin over = printed_margin(decision, shown, TakenOff::Value);
    verdict.short_form = Text().strong(verdict.word.words()).plain(", " + amount(over, shown) + " over");
    Text text(with_unit(amount(over, shown), shown.unit.symbol) + " over");
    if (decision.expanded && decision.rule != DecisionRule::Simple) {
        const int decimals = std::max(over.decimals, 0);
        const double beyond = std::abs(over.value) - rounded(decision.expanded->in(shown.unit), decimals);
        if (beyond > 0) text.plain(", " + units::number(beyond, decimals, shown.style) + " beyond\u00a0").symbol("U");
        else text.plain(", less than\u00a0").symbol("U");
    }
    return text;
}

Text undecided_margin(const Decision& decision, const Shown& shown, Verdict& verdict) {
    const PrintedMargin margin = printed_margin(decision, shown, TakenOff::Value);
    const std::string side = margin.value < 0 ? " over" : " short of it";
    verdict.short_form = Text().strong(verdict.word.words()).plain(", " + amount(margin, shown) + side);
    return Text(with_unit(amount(margin, shown), shown.unit.symbol) + side + ", less than\u00a0").symbol("U");
}

/// "29.1 + 7.5 is not past 40 µm."
std::vector<Text> explanation_of(const Decision& decision, const Shown& shown) {
    std::vector<Text> lines;
    const int decimals = result_decimals(shown, decision.expanded);
    const std::string value = number_of(shown, judged_value(decision), decimals),
                      limit = with_unit(limit_number(shown, decision.limit), shown.unit.symbol);
    const bool uses_U = decision.expanded && decision.rule != DecisionRule::Simple;
    const std::string U = uses_U ? number_of(shown, *decision.expanded, decimals) : "";
    switch (decision.outcome) {
        case Outcome::Pass:
            lines.emplace_back(uses_U ? value + " + " + U + " is not past " + limit + "." : value + " is not past " + limit + ".");
            break;
        case Outcome::Fail:
            lines.emplace_back(decision.rule == DecisionRule::GuardBand && judged_value(decision) <= decision.limit
                                   ? value + " + " + U + " is past " + limit + "."
                                   : value + " is past " + limit + (uses_U ? " by more than its\u00a0" : "."));
            if (uses_U && lines.back().words().ends_with("its\u00a0")) lines.back().symbol("U").plain(".");
            break;
        case Outcome::ConditionalPass:
        case Outcome::ConditionalFail:
        case Outcome::Undecided:
            lines.push_back(Text(value + "\u00a0±\u202f" + U + " covers the limit of " + limit + "."));
            break;
        case Outcome::NotDecided: break;
    }
    if (!decision.expanded) lines.emplace_back("No uncertainty is stated.");
    lines.emplace_back("Rule: " + rule_words(decision.rule) + (decision.rule_stated ? "." : ", as the document names none."));
    return lines;
}

Verdict not_decided(const Decision& decision) {
    Verdict verdict{.symbol = VerdictSymbol::NotEvaluated};
    const bool lacks_U = decision.value.has_value() && !decision.expanded;
    verdict.word = lacks_U ? Text().strong("Undetermined: no ").symbol("U") : Text().strong("Not evaluated");
    verdict.short_form = verdict.word;
    verdict.margin = Text(decision.reason);
    verdict.explanation = {Text(decision.reason)};
    return verdict;
}

/// The binary guard band rejects values short of the limit by less than U.
Verdict rejected_by_guard_band(const Decision& decision, const Shown& shown) {
    return {.symbol = VerdictSymbol::Outside,
            .word = Text().strong("Not accepted"),
            .margin = Text(distance_to_limit(decision, shown) + " short of it, less than\u00a0").symbol("U"),
            .short_form = Text().strong("Not accepted").plain(", in guard band")};
}

}  // namespace

PrintedMargin printed_margin(const Decision& decision, const Shown& shown, TakenOff taken_off) {
    const double limit = decision.limit.in(shown.unit), value = judged_value(decision).in(shown.unit);
    const double U = taken_off == TakenOff::ValueAndU ? decision.expanded->in(shown.unit) : 0;
    const double exact = limit - value - U;
    constexpr int enough = 6;
    for (int decimals = result_decimals(shown, decision.expanded);; ++decimals) {
        const double printed = limit - rounded(value, decimals) - rounded(U, decimals), half_digit = 0.5 * std::pow(10.0, -decimals);
        const bool sign_kept = (exact > 0 && printed > half_digit) || (exact < 0 && printed < -half_digit) || std::abs(exact) < 1e-9;
        if (sign_kept || decimals >= enough) return {printed, decimals};
    }
}

Verdict verdict_of(const evaluate::Decision* decision, const Shown& shown) {
    if (!decision) {
        const Text none = Text().quiet("no limit set");
        return {.symbol = VerdictSymbol::None, .word = none, .short_form = none};
    }
    if (decision->outcome == Outcome::NotDecided || !decision->value) return not_decided(*decision);
    Verdict verdict;
    switch (decision->outcome) {
        case Outcome::Pass:
            verdict = {.symbol = VerdictSymbol::Inside, .word = Text("Inside")};
            verdict.margin = inside_margin(*decision, shown, verdict);
            break;
        case Outcome::Fail:
            verdict = {.symbol = VerdictSymbol::Outside, .word = Text().strong("Outside")};
            if (judged_value(*decision) > decision->limit) {
                verdict.margin = outside_margin(*decision, shown, verdict);
            } else {
                verdict = rejected_by_guard_band(*decision, shown);
            }
            break;
        case Outcome::ConditionalPass:
            verdict = {.symbol = VerdictSymbol::Undecided, .word = Text().strong("Inside by less than ").symbol("U")};
            verdict.margin = undecided_margin(*decision, shown, verdict);
            verdict.short_form = verdict.word;  // with the distance it would be wider than its column
            break;
        case Outcome::ConditionalFail:
            verdict = {.symbol = VerdictSymbol::Undecided, .word = Text().strong("Outside by less than ").symbol("U")};
            verdict.margin = undecided_margin(*decision, shown, verdict);
            verdict.short_form = verdict.word;
            break;
        case Outcome::Undecided:
            verdict = {.symbol = VerdictSymbol::Undecided, .word = Text().strong("Undecided")};
            verdict.margin = undecided_margin(*decision, shown, verdict);
            break;
        case Outcome::NotDecided: break;
    }
    verdict.explanation = explanation_of(*decision, shown);
    return verdict;
}

Deviation judged_value(const Decision& decision) { return abs(*decision.value); }

std::string outside_words(const Decision& decision) { return judged_value(decision) > decision.limit ? "outside" : "in the guard band of"; }

std::string distance_to_limit(const Decision& decision, const Shown& shown) {
    return with_unit(amount(printed_margin(decision, shown, TakenOff::Value), shown), shown.unit.symbol);
}

std::string rule_words(DecisionRule rule) {
    switch (rule) {
        case DecisionRule::Simple: return "simple acceptance";
        case DecisionRule::GuardBand: return "guard band (ILAC-G8)";
        case DecisionRule::GuardBandBothSides: return "guard band on both sides";
        case DecisionRule::Iso14253_1: return "ISO 14253-1:2017";
        case DecisionRule::NonBinary: return "non-binary (ILAC-G8)";
    }
    return {};
}

std::string rule_explained(DecisionRule rule) {
    switch (rule) {
        case DecisionRule::Simple:
            return "A value is inside up to its limit and outside past it. The uncertainty takes no part; near the limit the risk of a "
                   "wrong verdict is up to one half.";
        case DecisionRule::GuardBand:
            return "A value is inside when it stays under the limit by at least its uncertainty *U*; every other value is not accepted "
                   "(ILAC-G8:09/2019, binary with guard band *w*\u00a0=\u00a0*U*).";
        case DecisionRule::GuardBandBothSides:
            return "A value is inside when it stays under the limit by at least its uncertainty *U*, outside when it is past the limit by "
                   "more than *U*, and undecided in between.";
        case DecisionRule::Iso14253_1:
            return "A value is inside when it stays under the limit by at least 1.65 *u*, outside when it is past the limit by more than "
                   "that, and undecided in between (ISO 14253-1:2017, 95 %).";
        case DecisionRule::NonBinary:
            return "A value is a pass up to limit less *U*, a conditional pass up to the limit, a conditional fail up to limit plus *U*, "
                   "and a fail past that (ILAC-G8:09/2019, non-binary, *w*\u00a0=\u00a0*U*).";
    }
    return {};
}

int severity(const evaluate::Decision* decision) {
    if (!decision) return 6;
    switch (decision->outcome) {
        case Outcome::Fail: return 0;
        case Outcome::ConditionalFail: return 1;
        case Outcome::Undecided: return 2;
        case Outcome::NotDecided: return 3;
        case Outcome::ConditionalPass: return 4;
        case Outcome::Pass: return 5;
    }
    return 6;
}

const evaluate::Decision* find_decision(const evaluate::Evaluation& evaluation, std::string_view series, std::string_view parameter) {
    const auto found =
        std::ranges::find_if(evaluation.decisions, [&](const Decision& d) { return d.series == series && d.parameter == parameter; });
    return found == evaluation.decisions.end() ? nullptr : &*found;
}

const evaluate::Decision* find_decision(const evaluate::Evaluation& evaluation, const evaluate::SquarenessEvaluation& squareness) {
    const auto on_it = [&](const Decision& d) { return d.axes == squareness.axes && d.series == squareness.series[0]; };
    const auto found = std::ranges::find_if(evaluation.decisions, on_it);
    return found == evaluation.decisions.end() ? nullptr : &*found;
}

}  // namespace wayfolio::report
