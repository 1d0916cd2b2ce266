#include "certificate/quantity.hpp"
#include "evaluate/standing.hpp"
#include "report/words/names.hpp"
#include "report/model/text.hpp"
#include "report/words/verdicts.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace wayfolio::certificate {
namespace {

using evaluate::Decision;
using evaluate::Outcome;
using document::DecisionRule;

/// The structure's word; nothing where neither conformity nor the lack of it is shown. (Its "noPass" and "noFail" would each say half of
/// that.)
std::string_view conformity_word(Outcome outcome) {
    switch (outcome) {
        case Outcome::Pass: return "pass";
        case Outcome::Fail: return "fail";
        case Outcome::ConditionalPass: return "conditionalPass";
        case Outcome::ConditionalFail: return "conditionalFail";
        case Outcome::Undecided:
        case Outcome::NotDecided: break;
    }
    return {};
}

/// The document that the rule is taken from; the guard band on both sides is nobody's in these words.
std::string_view rule_norm(DecisionRule rule) {
    switch (rule) {
        case DecisionRule::Simple:
        case DecisionRule::GuardBand:
        case DecisionRule::NonBinary: return "ILAC-G8:09/2019";
        case DecisionRule::Iso14253_1: return "ISO 14253-1:2017";
        case DecisionRule::GuardBandBothSides: break;
    }
    return {};
}

std::vector<Phrase> declaration_of(const Decision& decision) {
    std::string outcome(evaluate::word(evaluate::standing_of(&decision)));
    if (evaluate::standing_of(&decision) == evaluate::Standing::NotAccepted)
        outcome += ": the value keeps its limit, but not clear of it by the guard band that the rule requires";
    if (decision.outcome == Outcome::Undecided)
        outcome += ": within the guard band, so that neither conformity nor nonconformity is shown";
    if (!decision.reason.empty()) outcome += ": " + decision.reason;
    return {ours("Rule: " + report::rule_words(decision.rule) + (decision.rule_stated ? "" : ", as the document names none")),
            ours(report::marked(report::rule_explained(decision.rule)).words()), ours("Verdict: " + outcome)};
}

void put_numbers(Drafting& drafting, const Decision& decision) {
    const SiUnit unit = si_unit(decision.unit);
    const auto data = drafting.xml.open("dcc:data");
    const auto put = [&](const char* name, const char* label, const std::optional<units::Deviation>& value) {
        if (value) put_quantity(drafting, {.name = name, .label = label, .value = value->in(unit.unit), .unit = unit.spelling});
    };
    put("Limit", "limit", decision.limit);
    put("Guard band", "guard", decision.guard);
    put("Acceptance limit", "acceptance_limit", decision.acceptance_limit);
    if (decision.probability_of_conformity)
        put_quantity(drafting, {.name = "Probability of conformity",
                                .label = "probability_of_conformity",
                                .value = decision.probability_of_conformity,
                                .unit = si::one});
}

void put_decision(Drafting& drafting, const Decision& decision, const std::string& of) {
    XmlWriter& xml = drafting.xml;
    const bool refers = drafting.ids.contains(of);
    const auto data = xml.open("dcc:metaData", refers ? XmlWriter::Attributes{{"refId", of}} : XmlWriter::Attributes{});
    const std::string length = decision.length_mm ? fmt::format(" over {} mm", *decision.length_mm) : "";
    put_name(xml, ours("Conformity of " + decision.parameter + length));
    if (const auto norm = rule_norm(decision.rule); !norm.empty()) xml.put("dcc:norm", norm);
    if (is_stated(decision.source)) xml.put("dcc:reference", decision.source);
    put_lines(xml, "dcc:declaration", declaration_of(decision));
    if (const auto word = conformity_word(decision.outcome); !word.empty()) xml.put("dcc:conformity", word);
    put_numbers(drafting, decision);
}

}  // namespace

void put_conformity(Drafting& drafting, const std::vector<std::pair<const Decision*, std::string>>& decisions) {
    if (decisions.empty()) return;
    const auto list = drafting.xml.open("dcc:measurementMetaData");
    for (const auto& [decision, of] : decisions) put_decision(drafting, *decision, of);
}

}  // namespace wayfolio::certificate
