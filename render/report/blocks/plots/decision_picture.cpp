#include "report/blocks/plots/plots.hpp"

#include "report/words/verdicts.hpp"

#include <algorithm>

namespace wayfolio::report {
namespace {

using evaluate::Decision;
using document::DecisionRule;
using Zone = DecisionPicture::Zone;

Zone inside(double from, double to) { return {from, to, false, Standing::Inside, Text("inside")}; }
Zone outside(double from, double to) { return {from, to, false, Standing::Outside, Text().strong("outside")}; }

/// What the rule says along the scale; `w` is its guard band, `over` how far over its limit a value must be to be outside.
std::vector<Zone> zones_of(DecisionRule rule, const DecisionPicture& picture, double w, double over) {
    const double low = picture.low, high = picture.high, limit = picture.limit;
    if (!(w > 0)) return {inside(low, limit), outside(limit, high)};
    const Text both = over > w ? marked("*U* and bias") : marked("*U*");
    switch (rule) {
        case DecisionRule::Simple: break;
        case DecisionRule::GuardBand:
            return {inside(low, limit - w),
                    {limit - w, limit, true, Standing::NotAccepted, Text().strong("not accepted")},
                    outside(limit, high)};
        case DecisionRule::GuardBandBothSides:
        case DecisionRule::Iso14253_1:
            return {inside(low, limit - w),
                    {limit - w, limit + over, true, Standing::Undecided, Text().strong("undecided")},
                    outside(limit + over, high)};
        case DecisionRule::NonBinary:
            return {inside(low, limit - w),
                    {limit - w, limit, true, Standing::InsideByLess, marked("inside by less than *U*")},
                    {limit, limit + over, true, Standing::OutsideByLess, Text().strong("outside").plain(" by less than ").append(both)},
                    outside(limit + over, high)};
    }
    return {inside(low, limit), outside(limit, high)};
}

std::string probability_words(double probability, const units::NumberStyle& style) {
    constexpr double certain = 0.9995;
    if (probability > certain) return "over " + with_unit(units::number(99.9, 1, style), "%");
    if (probability < 1 - certain) return "under " + with_unit(units::number(0.1, 1, style), "%");
    return with_unit(units::number(100 * probability, 1, style), "%");
}

/// Margin, and margin after U, as printed.
std::pair<std::string, std::string> margins_of(const Judgement& judgement) {
    const Decision& decision = *judgement.decision;
    const auto text = [&](TakenOff taken_off) {
        const PrintedMargin margin = printed_margin(decision, judgement.shown, taken_off);
        return units::number(margin.value, margin.decimals, judgement.shown.style);
    };
    return {text(TakenOff::Value), decision.expanded ? text(TakenOff::ValueAndU) : no_value};
}

/// Room for the value with its U and for twice the guard band about the limit, the limit never at an end.
void set_scale(DecisionPicture& picture, double w) {
    const double U = picture.U.value_or(0), reach = std::max({2.2 * w, 1.2 * U, 0.15 * picture.limit});
    picture.low = std::min(picture.value - 1.3 * U, picture.limit - reach);
    picture.high = std::max(picture.value + 1.3 * U, picture.limit + reach);
    const double air = 0.06 * (picture.high - picture.low);
    picture.low -= air;
    picture.high += air;
}

std::vector<Text> margin_lines(const Judgement& judgement) {
    const Decision& decision = *judgement.decision;
    const auto [margin, after_U] = margins_of(judgement);
    const std::string unit(judgement.shown.unit.symbol);
    std::vector<Text> lines{Text("margin " + with_unit(margin, unit))};
    if (decision.expanded) lines.push_back(Text("after ").symbol("U").plain(" " + with_unit(after_U, unit)));
    if (decision.probability_of_conformity)
        lines.emplace_back("probability of conformity " + probability_words(*decision.probability_of_conformity, judgement.shown.style));
    return lines;
}

void set_words(DecisionPicture& picture, const Judgement& judgement, double w, double over) {
    const Decision& decision = *judgement.decision;
    const Shown& shown = judgement.shown;
    const std::string symbol = decision.parameter.size() == 1 ? decision.parameter : "";
    const int decimals = decided_decimals(decision, shown);
    picture.value_words = symbol.empty() ? Text(judgement.symbol) : Text().symbol(symbol);
    picture.value_words.plain("\u00a0=\u00a0" + value_text(shown, judged_value(decision), decimals));
    if (picture.U) picture.U_words = Text().symbol("U").plain("\u00a0=\u00a0" + number_of(shown, *decision.expanded, decimals));
    picture.limit_words = Text("limit " + with_unit(limit_number(shown, decision.limit), shown.unit.symbol));
    if (!(w > 0)) return;
    picture.width_words = decision.rule == DecisionRule::Iso14253_1 ? Text().symbol("w").plain("\u00a0=\u00a01.65\u202f").symbol("u")
                                                                    : Text().symbol("w").plain("\u00a0=\u00a0").symbol("U");
    // Edges are formed of what is printed, as margins are.
    const auto [limit, limit_decimals] = printed_limit(shown, decision.limit);
    const auto edge = [&](double apart) { return units::number(limit + apart, std::max(decimals, limit_decimals), shown.style); };
    if (over > w) picture.over_words = marked("*U* and bias");
    picture.edges.emplace_back(picture.limit - w, edge(-units::printed(w, decimals)));
    if (decision.rule != DecisionRule::GuardBand) picture.edges.emplace_back(picture.limit + over, edge(units::printed(over, decimals)));
}

}  // namespace

std::optional<DecisionPicture> decision_picture(const Judgement& judgement) {
    const Decision& decision = *judgement.decision;
    if (!decision.value || !(decision.limit.in(judgement.shown.unit) > 0)) return std::nullopt;
    const auto& unit = judgement.shown.unit;
    const double w = decision.guard && decision.rule != DecisionRule::Simple ? decision.guard->in(unit) : 0;
    const double over = decision.guard_below ? decision.guard_below->in(unit) : w;
    DecisionPicture picture{.low = 0,
                            .high = 0,
                            .value = judged_value(decision).in(unit),
                            .limit = decision.limit.in(unit),
                            .U = decision.expanded ? std::optional(decision.expanded->in(unit)) : std::nullopt,
                            .verdict = verdict_of(&decision, judgement.shown),
                            .margins = margin_lines(judgement)};
    set_scale(picture, std::max(w, over));
    picture.zones = zones_of(decision.rule, picture, w, over);
    set_words(picture, judgement, w, over);
    picture.alternative = judgement.name + " " + judgement.symbol + " against its limit: " + picture.value_words.words() +
                          (picture.U ? ", " + picture.U_words.words() : std::string()) + ", " + picture.limit_words.words() + "; " +
                          picture.verdict.word.words() + " by the rule " + rule_words(decision.rule) + ".";
    return picture;
}

Section decision_table(const std::vector<Judgement>& all) {
    PlainTable table{.columns = {
        {"Decision", 0.34}, {"value", 0.08, numbers}, {"U", 0.08, numbers}, {"limit", 0.08, numbers},
        {"margin", 0.08, numbers}, {"after U", 0.08, numbers}, {"conformity", 0.12, numbers}, {"Verdict", 0.14}}};
    for (const Judgement& one : all) {
        const Decision& decision = *one.decision;
        const Shown& shown = one.shown;
        const std::string name = one.name + ", " + one.symbol + "\u00a0/\u00a0" + std::string(shown.unit.symbol);
        const int decimals = decision.value ? decided_decimals(decision, shown) : result_decimals(shown, std::nullopt, decision.expanded);
        const auto [margin, after_U] = decision.value ? margins_of(one) : std::pair<std::string, std::string>(no_value, no_value);
        table.rows.push_back(
            {Text(name), Text(decision.value ? number_of(shown, judged_value(decision), decimals) : no_value),
             Text(decision.expanded ? number_of(shown, *decision.expanded, decimals) : no_value), Text(limit_number(shown, decision.limit)),
             Text(margin), Text(after_U),
             Text(decision.probability_of_conformity ? probability_words(*decision.probability_of_conformity, shown.style) : no_value),
             verdict_of(&decision, shown).word});
    }
    Section section{.heading = "Every decision in numbers", .parts = {table}};
    section.parts.emplace_back(
        Paragraph{marked("Margin: limit less value. Conformity: probability that the true value is within the limit, by Student’s *t* "
                         "with *u*\u00a0=\u00a0*U*\u202f/\u202f*k* and the degrees of freedom of *U*, or a normal distribution "
                         "where they are infinite (JCGM 106:2012 clause 7).")});
    return section;
}

}  // namespace wayfolio::report
