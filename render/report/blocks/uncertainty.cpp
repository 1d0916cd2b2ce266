#include "report/blocks/blocks.hpp"

#include "report/blocks/plots/plots.hpp"
#include "report/blocks/tables/tables.hpp"
#include "report/words/names.hpp"
#include "report/words/passages.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace wayfolio::report {
namespace {

using document::DecisionRule;
using evaluate::BudgetLine;
using evaluate::ParameterUncertainty;

/// The result that the page leads with: the worst verdict first, of positioning before the rest where verdicts are alike. Nothing where
/// no U follows from contributors.
const UncertainResult* leading(const std::vector<UncertainResult>& results) {
    std::vector<const UncertainResult*> divided;
    for (const UncertainResult& result : results)
        if (result.speaks && !result.entry->contributors.empty()) divided.push_back(&result);
    const auto rank = [](const UncertainResult* one) {
        const bool positioning = one->view && one->view->evaluation.kind == evaluate::SeriesKind::Positioning;
        return std::pair(!positioning, severity(one->decision));
    };
    const auto first = std::ranges::min_element(divided, {}, rank);
    return first == divided.end() ? nullptr : *first;
}

/// What brings most of a variance: the parts that the program counts by kind as one, of the document's own the largest.
struct LargestPart {
    std::string name;  ///< begins a sentence
    double share = 0;
    std::vector<const BudgetLine*> lines{};
};

LargestPart largest_part(const ParameterUncertainty& entry) {
    std::map<std::string, LargestPart> parts;
    for (const BudgetLine& line : entry.contributors) {
        const PartOf of = part_of(line);
        const std::string name = capitalised(of == PartOf::Listed ? line.name : part_words(of));
        LargestPart& part = parts[name];
        part.name = name;
        part.share += line.share;
        part.lines.push_back(&line);
    }
    return std::ranges::max_element(parts, {}, [](const auto& one) { return one.second.share; })->second;
}

Text words_without_budget(const Subject& subject) {
    const auto& all = subject.evaluation.uncertainty;
    if (all.empty()) return Text("No uncertainty is stated, and the document gives no input quantities to compute one from.");
    const bool computed =
        std::ranges::any_of(all, [](const ParameterUncertainty& entry) { return entry.source != evaluate::Source::Stated; });
    return Text(computed ? "The uncertainties that the document states are printed as stated; the others were computed."
                         : "The uncertainties are as stated by the document; no budget was computed here.");
}

/// "Two values lie within U of their limits.": nothing where no value with a limit has a U.
std::string near_limits(const std::vector<UncertainResult>& results) {
    std::size_t decided = 0, near = 0;
    for (const UncertainResult& result : results) {
        if (!result.decision || !result.decision->value || !result.decision->expanded) continue;
        ++decided;
        near += abs(judged_value(*result.decision) - result.decision->limit) < *result.decision->expanded;
    }
    if (decided == 0) return "";
    if (near == 0) return decided == 1 ? "The value is farther than *U* from its limit." : "No value lies within *U* of its limit.";
    if (decided == 1) return "The value lies within *U* of its limit.";
    return capitalised(count_word(near)) + (near == 1 ? " value lies within *U* of its limit." : " values lie within *U* of a limit.");
}

Text uncertainty_lead(const std::vector<UncertainResult>& results, const Subject& subject) {
    const UncertainResult* first = leading(results);
    const Text near = marked(near_limits(results));
    if (!first) {
        Text lead = words_without_budget(subject);
        return near.empty() ? lead : lead.plain(" ").append(near);
    }
    const LargestPart largest = largest_part(*first->entry);
    Text lead(largest.name + " is " + with_unit(share_text(largest.share, first->shown.style), "%") + " of the variance of ");
    lead.append(sentence_name(*first)).plain(".");
    return near.empty() ? lead : lead.plain(" ").append(near);
}

/// What remains of a combined uncertainty without some of its lines, as a share. Of lines that were added before squaring the others stay
/// in their sum.
double share_left(const ParameterUncertainty& entry, const std::vector<const BudgetLine*>& without) {
    std::map<std::string, double> sums, left;  // a line that stands alone is a sum of its own, under its place
    for (std::size_t i = 0; i < entry.contributors.size(); ++i) {
        const BudgetLine& line = entry.contributors[i];
        const std::string group = line.correlated.empty() ? std::to_string(i) : "of " + line.correlated;
        sums[group] += line.standard.in(entry.unit);
        left[group] += std::ranges::find(without, &line) != without.end() ? 0 : line.standard.in(entry.unit);
    }
    const auto variance = [](const std::map<std::string, double>& parts) {
        double squares = 0;
        for (const auto& [group, standard] : parts) squares += standard * standard;
        return squares;
    };
    return std::sqrt(variance(left) / variance(sums));
}

/// What the largest part is worth: U without it.
Text uncertainty_body(const std::vector<UncertainResult>& results) {
    const UncertainResult* first = leading(results);
    if (!first || first->entry->raised_to_capability) return {};
    const ParameterUncertainty& entry = *first->entry;
    Deviation without = entry.without_known_bias() * share_left(entry, largest_part(entry).lines);
    if (entry.known_bias) without = without + *entry.known_bias;  // which no input quantity lowers
    if (!(without > without * 0.0)) return {};
    Text body = Text().symbol("U").plain(" of ").append(sentence_name(*first));
    return body
        .plain(" is " + value_text(first->shown, entry.expanded, first->decimals()) + "; without that part it would be about " +
               value_text(first->shown, without, result_decimals(first->shown, std::nullopt, without)))
        .plain(". Combined by the GUM (JCGM 100:2008).");
}

/// The decision that the leading result belongs to, else the worst one.
std::optional<Judgement> drawn_decision(const std::vector<Judgement>& all, const UncertainResult* leading) {
    const auto ready = [](const Judgement& one) { return one.decision->value && one.decision->limit.in(one.shown.unit) > 0; };
    std::optional<Judgement> worst;
    for (const Judgement& one : all) {
        if (!ready(one)) continue;
        if (leading && one.decision == leading->decision) return one;
        if (!worst || severity(one.decision) < severity(worst->decision)) worst = one;
    }
    return worst;
}

/// What each rule can come to, best first.
std::vector<Standing> outcomes_of(DecisionRule rule) {
    switch (rule) {
        case DecisionRule::Simple: return {Standing::Inside, Standing::Outside};
        case DecisionRule::GuardBand: return {Standing::Inside, Standing::NotAccepted, Standing::Outside};
        case DecisionRule::GuardBandBothSides:
        case DecisionRule::Iso14253_1: return {Standing::Inside, Standing::Undecided, Standing::Outside};
        case DecisionRule::NonBinary:
            return {Standing::Inside, Standing::InsideByLess, Standing::OutsideByLess, Standing::Outside};
    }
    return {};
}

/// The condition in signs. Over the limit the bias of a range counts with U.
std::string condition(Standing standing, DecisionRule rule) {
    const std::string U = rule == DecisionRule::Iso14253_1 ? "1.65\u202f*u*" : "*U*";
    const bool above = rule == DecisionRule::Simple || rule == DecisionRule::GuardBand;
    switch (standing) {
        case Standing::Inside: return rule == DecisionRule::Simple ? "value ≤ limit" : "value + " + U + " ≤ limit";
        case Standing::InsideByLess:
        case Standing::NotAccepted: return "value ≤ limit < value + " + U;
        case Standing::Undecided: return "the limit is within " + U + " of the value";
        case Standing::OutsideByLess: return "value \u2212 " + U + " ≤ limit < value";
        case Standing::Outside: return above ? "limit < value" : "limit < value \u2212 " + U;
        case Standing::NotEvaluated: return rule == DecisionRule::Simple ? "there is no value" : "there is no value, or no *U*";
        case Standing::NoLimit: break;
    }
    return "";
}

OutcomeRow outcome_row(Standing standing, DecisionRule rule, const std::vector<Judgement>& decisions) {
    const auto those = of_standing(decisions, standing);
    OutcomeRow row{.standing = standing,
                   .word = marked(standing == Standing::InsideByLess || standing == Standing::OutsideByLess
                                      ? std::string(standing == Standing::InsideByLess ? "Inside" : "**Outside**") + " by less than *U*"
                                      : std::string(evaluate::word(standing))),
                   .when = marked(condition(standing, rule)),
                   .count = Text(those.empty() ? no_value : std::to_string(those.size())),
                   .example = {}};
    if (standing == Standing::Outside || standing == Standing::Undecided || standing == Standing::NotAccepted)
        row.word = emphasised(row.word);
    if (!those.empty()) row.example = verdict_sentence(Text(those.front().name), *those.front().decision, those.front().shown);
    return row;
}

std::vector<OutcomeRow> outcome_rows(DecisionRule rule, const std::vector<Judgement>& decisions) {
    std::vector<OutcomeRow> rows;
    for (const Standing standing : outcomes_of(rule)) rows.push_back(outcome_row(standing, rule, decisions));
    if (!of_standing(decisions, Standing::NotEvaluated).empty()) rows.push_back(outcome_row(Standing::NotEvaluated, rule, decisions));
    return rows;
}

}  // namespace

std::optional<Uncertainty> uncertainty(const Subject& subject) {
    const auto views = answering_series(subject);
    const auto results = uncertain_results(subject, views);
    const auto decisions = judgements(subject, views);
    if (subject.evaluation.uncertainty.empty() && decisions.empty()) return std::nullopt;
    Uncertainty made;
    made.opening = {.label = "Uncertainty and decisions",
                    .anchor = "uncertainty",
                    .lead = uncertainty_lead(results, subject),
                    .body = uncertainty_body(results)};
    made.caption = marked(
        "Grey bar: zero to the value. Pieces after it: *U*, split by share of the variance; the next column shows them enlarged. White "
        "notch: value less *U*. Upright line: the limit, the same place in every row.");
    made.rows = uncertainty_rows(subject, results);
    made.rows_anchor = scatter_anchor;
    made.rows_notes = uncertainty_rows_notes(subject, results);
    made.contributors = contributor_tables(subject, results);
    made.contributors_notes = contributor_notes(results);
    if (const auto judgement = drawn_decision(decisions, leading(results))) {
        made.decision = decision_picture(*judgement);
        made.rule_heading = "Decision rule: " + rule_words(judgement->decision->rule);
    }
    if (!decisions.empty()) made.outcomes = outcome_rows(decisions.front().decision->rule, decisions);
    add_section(made.sections, second_opinion(subject));
    // Among the methods, where the layout has them.
    if (std::ranges::find(subject.layout.blocks, "closing") == subject.layout.blocks.end())
        add_section(made.sections, uncertainty_method(subject));
    return made;
}

}  // namespace wayfolio::report
