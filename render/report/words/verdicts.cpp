#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::report {
namespace {

using evaluate::Decision;
using document::DecisionRule;

/// Whether the rule keeps a value clear of its limit by its uncertainty.
bool uses_U(const Decision& decision) { return decision.expanded && decision.rule != DecisionRule::Simple; }

/// Needs a U.
Deviation guard_of(const Decision& decision) { return decision.guard ? *decision.guard : *decision.expanded; }

/// What the rule holds the distance to the limit against. Random variation makes values too large only: over the limit more than U may
/// count.
Text guard_words(const Decision& decision) {
    Text words;
    if (decision.rule == DecisionRule::Iso14253_1) words.plain("1.65\u202f").symbol("u");
    else words.symbol("U");
    const Deviation over = judged_value(decision) - decision.limit;
    return decision.guard_below && over > guard_of(decision) ? words.plain(" and bias") : words;
}

/// The distance between the printed value and the limit: number, then where it lies.
struct Distance {
    std::string number;
    std::string_view side;
};

Distance distance_of(const Decision& decision, const Shown& shown) {
    const PrintedMargin margin = printed_margin(decision, shown, TakenOff::Value);
    return {units::number(std::abs(margin.value), std::max(margin.decimals, 0), shown.style), margin.value < 0 ? "over" : "under"};
}

bool on_its_limit(const Decision& decision) {
    constexpr double rounding = 1e-10;
    return abs(judged_value(decision) - decision.limit) <= decision.limit * rounding;
}

/// "0.56 µm under", "on it"
std::string distance_words(const Decision& decision, const Shown& shown) {
    if (on_its_limit(decision)) return "on it";
    const Distance distance = distance_of(decision, shown);
    return with_unit(distance.number, shown.unit.symbol) + " " + std::string(distance.side);
}

Text with_notes(Text margin, const Decision& decision) {
    return decision.expanded ? margin : margin.plain(", no\u00a0").symbol("U").plain(" stated");
}

Text spare_words(const Decision& decision, const Shown& shown) {
    if (on_its_limit(decision)) return with_notes("on its limit", decision);
    const PrintedMargin spare = printed_margin(decision, shown, uses_U(decision) ? TakenOff::ValueAndGuard : TakenOff::Value);
    Text text(with_unit(units::number(std::abs(spare.value), std::max(spare.decimals, 0), shown.style), shown.unit.symbol) + " to spare");
    if (uses_U(decision)) text.plain(" after\u00a0").append(guard_words(decision));
    return with_notes(text, decision);
}

Text outside_words(const Decision& decision, const Shown& shown) {
    Text text(distance_words(decision, shown));
    if (uses_U(decision)) {
        const PrintedMargin over = printed_margin(decision, shown, TakenOff::Value);
        const int decimals = std::max(over.decimals, 0);
        const double beyond = std::abs(over.value) - units::printed(guard_of(decision).in(shown.unit), decided_decimals(decision, shown));
        const Text guard = decision.rule == DecisionRule::Iso14253_1 ? marked("1.65\u202f*u*") : marked("*U*");
        if (beyond > 0) text.plain(", " + units::number(beyond, decimals, shown.style) + " beyond\u00a0").append(guard);
        else text.plain(", less than\u00a0").append(guard);
    }
    return with_notes(text, decision);
}

/// "0.56 µm under, less than U"
Text between_words(const Decision& decision, const Shown& shown) {
    if (on_its_limit(decision)) return Text("on its limit");
    return Text(distance_words(decision, shown) + ", less than\u00a0").append(guard_words(decision));
}

/// "by less than U: 0.56 µm under"
Text conditional_words(const Decision& decision, const Shown& shown) {
    return Text("by less than\u00a0").append(guard_words(decision)).plain(": " + distance_words(decision, shown));
}

/// The first part of a standing's word: what follows it, "by less than U", stands in the margin.
Text head_of(Standing standing) {
    const std::string word(evaluate::word(standing));
    switch (standing) {
        case Standing::Inside: break;
        case Standing::InsideByLess: return Text("Inside");
        case Standing::NotEvaluated: break;
        case Standing::NoLimit: return Text().quiet(word);
        case Standing::OutsideByLess: return Text().strong("Outside");
        case Standing::Undecided:
        case Standing::NotAccepted:
        case Standing::Outside: return Text().strong(word);
    }
    return Text(word);
}

/// The whole word; what scatter may add is part of it where U alone would be less than the distance.
Text word_of(const Decision& decision, Standing standing) {
    Text word = head_of(standing);
    const bool by_less = standing == Standing::InsideByLess || standing == Standing::OutsideByLess;
    return by_less ? word.plain(" by less than\u00a0").append(guard_words(decision)) : word;
}

Text margin_of(const Decision& decision, Standing standing, const Shown& shown) {
    switch (standing) {
        case Standing::Inside: return spare_words(decision, shown);
        case Standing::InsideByLess:
        case Standing::OutsideByLess: return conditional_words(decision, shown);
        case Standing::Undecided:
        case Standing::NotAccepted: return between_words(decision, shown);
        case Standing::Outside: return outside_words(decision, shown);
        case Standing::NotEvaluated: {
            const bool lacks_U = decision.value.has_value() && !decision.expanded;
            return lacks_U ? marked("no *U* stated; the rule needs it") : Text(decision.reason);
        }
        case Standing::NoLimit: break;
    }
    return {};
}

/// For a cell of a table without its unit: what is left over, or how far from the limit.
Text short_form_of(const Verdict& verdict, const Decision& decision, const Shown& shown) {
    if (verdict.standing == Standing::NotEvaluated || verdict.word != verdict.head) return verdict.word;  // with numbers too wide
    if (on_its_limit(decision)) return Text(verdict.word).plain(", on its limit");
    if (verdict.standing != Standing::Inside) {
        const Distance distance = distance_of(decision, shown);
        return Text(verdict.word).plain(", " + distance.number + " " + std::string(distance.side));
    }
    const PrintedMargin spare = printed_margin(decision, shown, uses_U(decision) ? TakenOff::ValueAndGuard : TakenOff::Value);
    return Text(verdict.word)
        .plain(", " + units::number(std::abs(spare.value), std::max(spare.decimals, 0), shown.style) + " to spare");
}

/// "29.1 + 7.5 does not exceed 40 µm."
Text comparison_of(const Decision& decision, Standing standing, const Shown& shown) {
    if (standing == Standing::NotEvaluated) return decision.reason;
    const int decimals = decided_decimals(decision, shown);
    const std::string value = number_of(shown, judged_value(decision), decimals),
                      limit = with_unit(limit_number(shown, decision.limit), shown.unit.symbol),
                      guard = uses_U(decision) ? number_of(shown, guard_of(decision), decimals) : "";
    switch (standing) {
        case Standing::Inside: return value + (guard.empty() ? "" : " + " + guard) + " does not exceed " + limit + ".";
        case Standing::NotAccepted: return value + " + " + guard + " exceeds " + limit + ".";
        case Standing::Outside: {
            const bool by_more = uses_U(decision) && judged_value(decision) - decision.limit > guard_of(decision);
            if (!by_more) return value + " exceeds " + limit + ".";
            return decision.rule == DecisionRule::Iso14253_1 ? marked(value + " exceeds " + limit + " by more than 1.65\u202f*u*.")
                                                             : marked(value + " exceeds " + limit + " by more than *U*.");
        }
        case Standing::InsideByLess:
        case Standing::OutsideByLess:
        case Standing::Undecided:
            if (judged_value(decision) - decision.limit > guard_of(decision))
                return value + " \u2212 " + guard + " exceeds " + limit + ", but random variation alone makes ranges too large.";
            return value + "\u00a0±\u202f" + guard + " includes the limit of " + limit + ".";
        case Standing::NotEvaluated:
        case Standing::NoLimit: break;
    }
    return decision.reason;
}

std::vector<Text> explanation_of(const Decision& decision, Standing standing, const Shown& shown) {
    std::vector<Text> lines{comparison_of(decision, standing, shown)};
    if (standing == Standing::NotEvaluated) return lines;
    if (!decision.expanded) lines.emplace_back("No uncertainty is stated.");
    if (decision.stated) lines.emplace_back("The value is as stated, not recomputed.");
    lines.emplace_back("Rule: " + rule_words(decision.rule) + (decision.rule_stated ? "." : ", as the document names none."));
    return lines;
}

}  // namespace

int decided_decimals(const Decision& decision, const Shown& shown) {
    const double value = judged_value(decision).in(shown.unit);
    const double U = decision.expanded ? decision.expanded->in(shown.unit) : 0;
    const double guard = decision.expanded ? guard_of(decision).in(shown.unit) : 0;
    const auto [limit, limit_decimals] = printed_limit(shown, decision.limit);
    const auto sign_kept = [&](double taken_off, int decimals) {
        const double exact = decision.limit.in(shown.unit) - value - taken_off;
        const double printed = limit - units::printed(value, decimals) - units::printed(taken_off, decimals);
        const double half_digit = 0.5 * std::pow(10.0, -std::max(decimals, limit_decimals));
        return (exact > 0 && printed > half_digit) || (exact < 0 && printed < -half_digit) || std::abs(exact) < 1e-9;
    };
    constexpr int most_more = 6;
    const int least = result_decimals(shown, judged_value(decision), decision.expanded);
    for (int decimals = least;; ++decimals)
        if ((sign_kept(0, decimals) && sign_kept(U, decimals) && sign_kept(guard, decimals)) || decimals == least + most_more)
            return decimals;
}

PrintedMargin printed_margin(const Decision& decision, const Shown& shown, TakenOff taken_off) {
    const int decimals = decided_decimals(decision, shown);
    const auto [limit, limit_decimals] = printed_limit(shown, decision.limit);
    const double U = taken_off == TakenOff::Value       ? 0
                     : taken_off == TakenOff::ValueAndU ? decision.expanded->in(shown.unit)
                                                        : guard_of(decision).in(shown.unit);
    const double margin = limit - units::printed(judged_value(decision).in(shown.unit), decimals) - units::printed(U, decimals);
    return {margin, std::max(decimals, limit_decimals)};
}

Verdict verdict_of(const evaluate::Decision* decision, const Shown& shown) {
    const Standing standing = evaluate::standing_of(decision);
    const Text head = head_of(standing);
    if (!decision) return {.standing = standing, .word = head, .head = head, .margin = {}, .short_form = head};
    Verdict verdict{.standing = standing,
                    .word = word_of(*decision, standing),
                    .head = head,
                    .margin = margin_of(*decision, standing, shown)};
    verdict.short_form = short_form_of(verdict, *decision, shown);
    verdict.explanation = explanation_of(*decision, standing, shown);
    return verdict;
}

Text verdict_sentence(Text name, const Decision& decision, const Shown& shown) {
    const Verdict verdict = verdict_of(&decision, shown);
    const std::string limit = "its limit of " + with_unit(limit_number(shown, decision.limit), shown.unit.symbol);
    switch (verdict.standing) {
        case Standing::Inside:
            if (on_its_limit(decision)) return name.plain(" is inside, on " + limit + ".");
            return name.plain(" is inside " + limit + ", with ").append(verdict.margin).plain(".");
        case Standing::InsideByLess: return name.plain(" is inside " + limit + " ").append(verdict.margin).plain(".");
        case Standing::Undecided:
        case Standing::NotAccepted:
            name.plain(verdict.standing == Standing::Undecided ? " is undecided: " : " is not accepted: ");
            if (on_its_limit(decision)) return name.plain("on " + limit + ".");
            return name.plain(distance_words(decision, shown) + " " + limit + ", less than\u00a0").append(guard_words(decision)).plain(".");
        case Standing::OutsideByLess: return name.plain(" is outside " + limit + " ").append(verdict.margin).plain(".");
        case Standing::Outside: return name.plain(" is outside " + limit + ": ").append(verdict.margin).plain(".");
        case Standing::NotEvaluated: return name.plain(" is not evaluated against " + limit + ": " + decision.reason + ".");
        case Standing::NoLimit: break;
    }
    return name;
}

Deviation judged_value(const Decision& decision) { return abs(*decision.value); }

std::string distance_to_limit(const Decision& decision, const Shown& shown) {
    return with_unit(distance_of(decision, shown).number, shown.unit.symbol);
}

std::string rule_words(DecisionRule rule) {
    switch (rule) {
        case DecisionRule::Simple: return "simple acceptance";
        case DecisionRule::GuardBand: return "guard band (ILAC-G8)";
        case DecisionRule::GuardBandBothSides: return "guarded acceptance and rejection";
        case DecisionRule::Iso14253_1: return "ISO 14253-1:2017";
        case DecisionRule::NonBinary: return "non-binary (ILAC-G8)";
    }
    return {};
}

std::string rule_explained(DecisionRule rule) {
    switch (rule) {
        case DecisionRule::Simple:
            return "A value is inside up to its limit and outside over it. The uncertainty takes no part; near the limit the risk of a "
                   "wrong verdict is up to one half.";
        case DecisionRule::GuardBand:
            return "A value is inside when value plus *U* does not exceed the limit, outside over the limit, and not accepted in between "
                   "(ILAC-G8:09/2019, binary with guard band *w*\u00a0=\u00a0*U*).";
        case DecisionRule::GuardBandBothSides:
            return "A value is inside when value plus *U* does not exceed the limit, outside when value less *U* exceeds it, and undecided "
                   "in between; the bias of a range counts with *U* over the limit.";
        case DecisionRule::Iso14253_1:
            return "A value is inside when value plus 1.65 *u* does not exceed the limit, outside when value less 1.65 *u* exceeds it, and "
                   "undecided in between (ISO 14253-1:2017, 95 %); the bias of a range counts with "
                   "it over the limit.";
        case DecisionRule::NonBinary:
            return "A value is inside up to limit less *U*, inside by less than *U* up to the limit, outside by less than *U* up to limit "
                   "plus *U*, and outside over that (ILAC-G8:09/2019, non-binary, *w*\u00a0=\u00a0*U*: pass, conditional pass, "
                   "conditional fail, fail); the bias of a range counts with *U* over the limit.";
    }
    return {};
}

int severity(const evaluate::Decision* decision) { return static_cast<int>(evaluate::standing_of(decision)); }

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
