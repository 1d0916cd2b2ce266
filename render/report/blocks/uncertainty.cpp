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

using evaluate::BudgetLine;
using evaluate::ParameterUncertainty;

struct ChosenBudget {
    const SeriesView* view;
    const ParameterUncertainty* entry;
};

/// One headline budget for each series that answers: the worst verdict first, positioning before the rest where verdicts are alike.
std::vector<ChosenBudget> chosen_budgets(const Subject& subject, const std::vector<SeriesView>& views) {
    std::vector<ChosenBudget> chosen;
    for (const SeriesView& view : views) {
        const auto* entry =
            evaluate::find_uncertainty(subject.evaluation, view.series.id, headline_parameter(view.series, view.evaluation));
        if (entry && !entry->contributors.empty()) chosen.push_back({&view, entry});
    }
    const auto rank = [&](const ChosenBudget& one) {
        return std::pair(one.view->evaluation.kind != evaluate::SeriesKind::Positioning,
                         severity(find_decision(subject.evaluation, one.view->series.id, one.entry->parameter)));
    };
    std::ranges::stable_sort(chosen, {}, rank);
    return chosen;
}

const BudgetLine& largest_of(const ParameterUncertainty& entry) {
    return *std::ranges::max_element(entry.contributors, {}, &BudgetLine::share);
}

Text words_without_budget(const Subject& subject) {
    const auto& all = subject.evaluation.uncertainty;
    if (all.empty()) return Text("No uncertainty is stated, and the document gives no input quantities to compute one from.");
    const bool computed =
        std::ranges::any_of(all, [](const ParameterUncertainty& entry) { return entry.source != evaluate::Source::Stated; });
    return Text(computed ? "The uncertainties that the document states are printed as stated; the others were computed."
                         : "The uncertainties are as stated by the document; no budget was computed here.");
}

Text uncertainty_lead(const std::vector<ChosenBudget>& chosen, const Subject& subject) {
    if (chosen.empty()) return words_without_budget(subject);
    const auto& [view, entry] = chosen.front();
    Text lead("The uncertainty of ");
    if (const std::string symbol = parameter_symbol(entry->parameter); symbol.empty()) lead.plain(view->series.error.text());
    else lead.symbol(symbol);
    lead.plain(" is " + value_text(view->shown, entry->expanded, parameter_decimals(subject, *view, entry->parameter)) + ". ");
    const BudgetLine& largest = largest_of(*entry);
    return lead.plain("Largest part, " + with_unit(share_text(largest.share, view->shown.style), "%") +
                      " of its variance: " + largest.name + ".");
}

/// What remains of a combined uncertainty without one of its lines, as a share. Of lines that were added before squaring the others
/// stay in their sum.
double share_left(const ParameterUncertainty& entry, const BudgetLine& without) {
    std::map<std::string, double> sums, left;  // a line that stands alone is a sum of its own, under its place
    for (std::size_t i = 0; i < entry.contributors.size(); ++i) {
        const BudgetLine& line = entry.contributors[i];
        const std::string group = line.correlated.empty() ? std::to_string(i) : "of " + line.correlated;
        sums[group] += line.standard.in(entry.unit);
        left[group] += &line == &without ? 0 : line.standard.in(entry.unit);
    }
    const auto variance = [](const std::map<std::string, double>& parts) {
        double squares = 0;
        for (const auto& [group, standard] : parts) squares += standard * standard;
        return squares;
    };
    return std::sqrt(variance(left) / variance(sums));
}

Text uncertainty_body(const std::vector<ChosenBudget>& chosen) {
    if (chosen.empty()) return {};
    const auto& [view, entry] = chosen.front();
    const BudgetLine& largest = largest_of(*entry);
    Text body("Improve the first line first");
    Deviation without = entry->without_known_bias() * share_left(*entry, largest);
    if (entry->known_bias) without = without + *entry->known_bias;  // which no input quantity lowers
    if (without > without * 0.0) {
        body.plain(": without it ")
            .symbol("U")
            .plain(" would be about " + value_text(view->shown, without, result_decimals(view->shown, std::nullopt, without)));
    }
    return body.plain(". Combined by the GUM (JCGM 100:2008).");
}

/// The decision that the first budget belongs to, else the worst one.
std::optional<Judgement> drawn_decision(const std::vector<Judgement>& all, const std::vector<ChosenBudget>& chosen) {
    const auto ready = [](const Judgement& one) { return one.decision->value && one.decision->limit.in(one.shown.unit) > 0; };
    if (!chosen.empty())
        for (const Judgement& one : all)
            if (ready(one) && one.decision->series == chosen.front().entry->series &&
                one.decision->parameter == chosen.front().entry->parameter)
                return one;
    std::optional<Judgement> worst;
    for (const Judgement& one : all)
        if (ready(one) && (!worst || severity(one.decision) < severity(worst->decision))) worst = one;
    return worst;
}

Section uncertainty_method(const Subject& subject) {
    BulletList list;
    list.items = {
        marked(
            "Combined by the law of propagation to first order: root of the sum of squares of sensitivity times standard uncertainty "
            "(GUM clause 5); correlated input quantities are added first and make one input quantity with degrees of freedom of its own. "
            "Effective degrees of freedom by Welch and Satterthwaite (GUM G.4), truncated."),
        marked("Limits become standard uncertainties by their distribution: rectangular, half width / √3; triangular, / √6; U-shaped, / √2 "
               "(GUM 4.3); expanded ones are divided by their *k*."),
        marked(
            "How input quantities act on ranges, maxima and standard deviations was derived here from the GUM; it is not the text of ISO "
            "230-2 Annex A, which was not available. With travel *L*: the instrument's length-proportional part times *L* plus its own "
            "constant, as certificates state the sum; every other input quantity as the document states it, independent of that sum; and "
            "at each target that sets the value the variance of its mean (*s*² + drift²)/*n*; where several targets tie, the one that "
            "gives the largest *U*. *A* and *R* add the uncertainty of *s* itself, *s*/√(2(*n* − 1)) (GUM E.4.3). *R* and *B*, measured "
            "at one place, take no length part."),
        marked("The uncertainty of a straightness reference line is left out."),
        marked("Bias of ranges by random variation: the expected largest noise among the means that may set the value (a mean within three "
               "standard "
               "uncertainties of the extreme counts as one of them, others at a shortened distance), standard deviation pooled over "
               "neighbours to 20 "
               "degrees of freedom. Own simulation: on flat, sloped and periodic axes the limits hold in 95 % or more. The probability of "
               "conformity does not count it."),
    };
    if (std::ranges::any_of(subject.evaluation.uncertainty, [](const auto& entry) { return entry.known_bias.has_value(); }))
        list.items.push_back(marked(
            "Known and not corrected: effects on the length of a series (air and expansion that the instrument took, the angle of the "
            "beam, the dead path) that no input quantity covers and that exceed a tenth of *U*(*E*). They are added with their signs, "
            "and *U* is *k u* plus the size of the sum (GUM F.2.4.5): one number that never claims too little. Guard bands hold it "
            "in full, the probability of conformity counts it towards the limit."));
    const bool k2 = subject.document.evaluation.coverage.value_or(document::Coverage::K2) == document::Coverage::K2;
    list.items.push_back(k2 ? marked("Expanded with *k* = 2. What that covers follows from Student's *t* and the effective degrees of "
                                     "freedom, and stands with each budget: about 95 % where they are many, less where they are few.")
                            : marked("Expanded with Student's *t* for 95 % and the effective degrees of freedom (GUM G.6.4)."));
    if (subject.document.job.laboratory && !subject.document.job.laboratory->capability.empty())
        list.items.emplace_back(
            "Never below the calibration and measurement capability (CMC) that the laboratory states (ILAC-P14:09/2020).");
    return {.heading = "How uncertainties were combined", .parts = {list}};
}

}  // namespace

std::optional<Uncertainty> uncertainty(const Subject& subject) {
    const auto views = answering_series(subject);
    const auto chosen = chosen_budgets(subject, views);
    const auto decisions = judgements(subject, views);
    if (subject.evaluation.uncertainty.empty() && decisions.empty()) return std::nullopt;
    Uncertainty made;
    made.opening = {.label = "Uncertainty and decisions",
                    .anchor = "uncertainty",
                    .lead = uncertainty_lead(chosen, subject),
                    .body = uncertainty_body(chosen)};
    std::vector<const ParameterUncertainty*> whole;
    for (const auto& [view, entry] : chosen) {
        made.budgets.push_back(budget_of(subject, *view, *entry));
        whole.push_back(entry);
    }
    if (const auto judgement = drawn_decision(decisions, chosen)) {
        made.decision = decision_picture(*judgement);
        made.rule_heading = "Decision rule: " + rule_words(judgement->decision->rule);
        made.rule_explained = marked(rule_explained(judgement->decision->rule));
    }
    if (!decisions.empty()) made.sections.push_back(decision_table(decisions));
    add_section(made.sections, scatter_section(subject));
    add_section(made.sections, second_opinion(subject));
    for (const SeriesView& view : views) add_section(made.sections, budget_matrix(subject, view));
    add_section(made.sections, other_uncertainties(subject, whole));
    if (!subject.evaluation.uncertainty.empty()) made.sections.push_back(uncertainty_method(subject));
    return made;
}

}  // namespace wayfolio::report
