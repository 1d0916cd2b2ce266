#include "evaluate/standing.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

namespace wayfolio::evaluate {
namespace {

Json contributor_json(const BudgetLine& line, const DeviationUnit& unit) {
    Json json{{"name", line.name},
              {"standard", line.standard.in(unit)},
              {"distribution", line.distribution},
              {"sensitivity", line.sensitivity},
              {"degrees_of_freedom", line.degrees_of_freedom ? Json(*line.degrees_of_freedom) : Json(nullptr)},
              {"share", line.share}};
    add(json, "basis", line.basis);
    add(json, "correlated", line.correlated);
    if (line.influence) json["influence"] = word(*line.influence);
    return json;
}

Json monte_carlo_json(const Evaluated<MonteCarloResult>& evaluated, const DeviationUnit& unit) {
    if (const auto* why = std::get_if<NotEvaluated>(&evaluated)) return {{"not_evaluated", why->reason}};
    const auto& result = std::get<MonteCarloResult>(evaluated);
    Json json{{"trials", result.trials},
              {"seed", result.seed},
              {"expanded", result.expanded.in(unit)},
              {"standard", result.standard.in(unit)},
              {"low", result.low.in(unit)},
              {"high", result.high.in(unit)},
              {"shift", result.shift.in(unit)},
              {"tolerance", result.tolerance.in(unit)},
              {"agrees", result.agrees},
              {"covered", result.covered}};
    if (result.printed) json["printed"] = *result.printed == MonteCarloResult::Printed::Wider ? "wider" : "narrower";
    add(json, "resolution", result.resolution, unit);
    return json;
}

Json interval_json(const ScatterInterval& interval, const ParameterUncertainty& of) {
    Json json{{"low", interval.low.in(of.unit)},
              {"high", interval.high.in(of.unit)},
              {"coverage", interval.coverage},
              {"stated", interval.stated}};
    if (of.source == Source::Stated) json["basis"] = "stated U plus scatter_bias";
    return json;
}

}  // namespace

Json uncertainty_json(const ParameterUncertainty& uncertainty) {
    Json json{{"series", uncertainty.series}, {"parameter", uncertainty.parameter}};
    if (uncertainty.axes) json["axes"] = *uncertainty.axes;
    add(json, "length_mm", uncertainty.length_mm);
    add(json, "standard", uncertainty.standard, uncertainty.unit);
    json["expanded"] = uncertainty.expanded.in(uncertainty.unit);
    json["unit"] = uncertainty.unit.spelling;
    json["coverage_factor"] = uncertainty.coverage_factor;
    json["coverage"] = uncertainty.coverage;
    add(json, "degrees_of_freedom", uncertainty.degrees_of_freedom);
    if (uncertainty.standard_at_setting_targets && uncertainty.expanded_at_setting_targets) {
        json["length"] = "travel";
        add(json["at_setting_targets"], "standard", uncertainty.standard_at_setting_targets, uncertainty.unit);
        add(json["at_setting_targets"], "expanded", uncertainty.expanded_at_setting_targets, uncertainty.unit);
    }
    add(json, "known_bias", uncertainty.known_bias, uncertainty.unit);
    if (uncertainty.interval) json["interval"] = interval_json(*uncertainty.interval, uncertainty);
    json["source"] = uncertainty.source == Source::Stated ? "stated" : "computed";
    if (uncertainty.raised_to_capability) json["raised_to_capability"] = uncertainty.raised_to_capability;
    json["contributors"] = Json::array();
    for (const auto& line : uncertainty.contributors) json["contributors"].push_back(contributor_json(line, uncertainty.unit));
    if (!uncertainty.notes.empty()) json["notes"] = uncertainty.notes;
    if (uncertainty.monte_carlo) json["monte_carlo"] = monte_carlo_json(*uncertainty.monte_carlo, uncertainty.unit);
    return json;
}

Json decision_json(const Decision& decision) {
    Json json{{"series", decision.series}, {"parameter", decision.parameter}};
    if (decision.axes) json["axes"] = *decision.axes;
    add(json, "length_mm", decision.length_mm);
    if (decision.reference_line) json["reference_line"] = word(*decision.reference_line);
    json["limit"] = decision.limit.in(decision.unit);
    json["unit"] = decision.unit.spelling;
    add(json, "source", decision.source);
    add(json, "value", decision.value, decision.unit);
    if (decision.stated) json["stated"] = true;
    add(json, "expanded", decision.expanded, decision.unit);
    json["rule"] = word(decision.rule);
    json["rule_stated"] = decision.rule_stated;
    add(json, "guard", decision.guard, decision.unit);
    add(json, "guard_below", decision.guard_below, decision.unit);
    add(json, "acceptance_limit", decision.acceptance_limit, decision.unit);
    json["outcome"] = word(decision.outcome);
    json["verdict"] = word(standing_of(&decision));
    add(json, "reason", decision.reason);
    add(json, "probability_of_conformity", decision.probability_of_conformity);
    add(json, "margin", decision.margin, decision.unit);
    add(json, "margin_after_U", decision.margin_after_U, decision.unit);
    return json;
}

}  // namespace wayfolio::evaluate
