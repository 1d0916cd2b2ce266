#include "evaluate/standing.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

namespace wayfolio::evaluate {
namespace {

void write_contributor(JsonSink& to, const BudgetLine& line, const DeviationUnit& unit) {
    write_object(to, [&] {
        to.add("name", line.name);
        to.add("standard", line.standard.in(unit));
        to.add("distribution", line.distribution);
        to.add("sensitivity", line.sensitivity);
        to.key("degrees_of_freedom");
        if (line.degrees_of_freedom) to.number(*line.degrees_of_freedom);
        else to.none();
        to.add("share", line.share);
        add(to, "basis", line.basis);
        add(to, "correlated", line.correlated);
        if (line.influence) to.add("influence", word(*line.influence));
    });
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

void write_interval(JsonSink& to, const ScatterInterval& interval, const ParameterUncertainty& of) {
    write_object(to, [&] {
        to.add("low", interval.low.in(of.unit));
        to.add("high", interval.high.in(of.unit));
        to.add("coverage", interval.coverage);
        to.add("stated", interval.stated);
        if (of.source == Source::Stated) to.add("basis", "stated U plus scatter_bias");
    });
}

void add_at_setting_targets(JsonSink& to, const ParameterUncertainty& uncertainty) {
    if (!uncertainty.standard_at_setting_targets || !uncertainty.expanded_at_setting_targets) return;
    to.add("length", "travel");
    to.key("at_setting_targets");
    write_object(to, [&] {
        add(to, "standard", uncertainty.standard_at_setting_targets, uncertainty.unit);
        add(to, "expanded", uncertainty.expanded_at_setting_targets, uncertainty.unit);
    });
}

void write_size(JsonSink& to, const ParameterUncertainty& uncertainty) {
    to.add("series", uncertainty.series);
    to.add("parameter", uncertainty.parameter);
    if (uncertainty.axes) to.add("axes", *uncertainty.axes);
    add(to, "length_mm", uncertainty.length_mm);
    add(to, "standard", uncertainty.standard, uncertainty.unit);
    to.add("expanded", uncertainty.expanded.in(uncertainty.unit));
    to.add("unit", uncertainty.unit.spelling);
    to.add("coverage_factor", uncertainty.coverage_factor);
    to.add("coverage", uncertainty.coverage);
    add(to, "degrees_of_freedom", uncertainty.degrees_of_freedom);
    add_at_setting_targets(to, uncertainty);
    add(to, "known_bias", uncertainty.known_bias, uncertainty.unit);
}

}  // namespace

void write_uncertainty(JsonSink& to, const ParameterUncertainty& uncertainty) {
    write_object(to, [&] {
        write_size(to, uncertainty);
        if (uncertainty.interval) {
            to.key("interval");
            write_interval(to, *uncertainty.interval, uncertainty);
        }
        to.add("source", uncertainty.source == Source::Stated ? "stated" : "computed");
        if (uncertainty.raised_to_capability) to.add("raised_to_capability", uncertainty.raised_to_capability);
        to.key("contributors");
        write_list(to, uncertainty.contributors,
                   [&](JsonSink& into, const BudgetLine& line) { write_contributor(into, line, uncertainty.unit); });
        if (!uncertainty.notes.empty()) to.add("notes", uncertainty.notes);
        if (uncertainty.monte_carlo) to.add("monte_carlo", monte_carlo_json(*uncertainty.monte_carlo, uncertainty.unit));
    });
}

void write_decision(JsonSink& to, const Decision& decision) {
    write_object(to, [&] {
        to.add("series", decision.series);
        to.add("parameter", decision.parameter);
        if (decision.axes) to.add("axes", *decision.axes);
        add(to, "length_mm", decision.length_mm);
        if (decision.reference_line) to.add("reference_line", word(*decision.reference_line));
        to.add("limit", decision.limit.in(decision.unit));
        to.add("unit", decision.unit.spelling);
        add(to, "source", decision.source);
        add(to, "value", decision.value, decision.unit);
        if (decision.stated) to.add("stated", true);
        add(to, "expanded", decision.expanded, decision.unit);
        to.add("rule", word(decision.rule));
        to.add("rule_stated", decision.rule_stated);
        add(to, "guard", decision.guard, decision.unit);
        add(to, "guard_below", decision.guard_below, decision.unit);
        add(to, "acceptance_limit", decision.acceptance_limit, decision.unit);
        to.add("outcome", word(decision.outcome));
        to.add("verdict", word(standing_of(&decision)));
        add(to, "reason", decision.reason);
        add(to, "probability_of_conformity", decision.probability_of_conformity);
        add(to, "margin", decision.margin, decision.unit);
        add(to, "margin_after_U", decision.margin_after_U, decision.unit);
    });
}

}  // namespace wayfolio::evaluate
