#include "evaluate/series/targets.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

/// As the document wrote it, where it is a target.
double written_position(const SetBy& setter, const SeriesEvaluation& series) {
    const bool target = setter.index < series.targets.size() && series.targets[setter.index].position == setter.position;
    return target ? series.targets[setter.index].written : setter.position.in(series.position_unit);
}

void write_set_by(JsonSink& to, const SetBy& setter, const SeriesEvaluation& series) {
    write_object(to, [&] {
        to.add("position", written_position(setter, series));
        if (setter.approach) to.add("approach", word(*setter.approach));
        if (setter.side) to.add("side", word(*setter.side));
        to.add("level", setter.level.in(written_unit(setter.level, series.unit)));
    });
}

void add_set_by(JsonSink& to, const std::vector<SetBy>& set_by, const SeriesEvaluation& series) {
    if (set_by.empty()) return;
    to.key("set_by");
    write_list(to, set_by, [&](JsonSink& into, const SetBy& setter) { write_set_by(into, setter, series); });
}

void write_scatter_bias(JsonSink& to, const Evaluated<ScatterBias>& evaluated, const DeviationUnit& unit) {
    write_object(to, [&] {
        if (const auto* bias = value_of(evaluated)) {
            to.add("up_to", Deviation(bias->up_to(), base_unit(unit.dimension)).in(unit));
            to.add("degrees_of_freedom", bias->degrees_of_freedom);
        } else {
            to.add("not_evaluated", std::get<NotEvaluated>(evaluated).reason);
        }
    });
}

/// One named result: value, unit, set_by, stated. What else belongs to it, `rest` adds.
template <std::invocable Rest>
void write_parameter(JsonSink& to, const Parameter& parameter, const SeriesEvaluation& series, const Rest& rest) {
    const auto* value = value_of(parameter.value);
    const auto unit = written_unit(value != nullptr ? *value : parameter.stated.value(), series.unit);
    write_object(to, [&] {
        if (value != nullptr) to.add("value", value->in(unit));
        to.add("unit", unit.spelling);
        add(to, "raw", parameter.raw, unit);
        if (parameter.reference_line) to.add("reference_line", word(*parameter.reference_line));
        add_set_by(to, parameter.set_by, series);
        if (parameter.scatter_bias) {
            to.key("scatter_bias");
            write_scatter_bias(to, *parameter.scatter_bias, unit);
        }
        if (parameter.stated) to.add("stated", parameter.stated->in(written_unit(*parameter.stated, series.unit)));
        rest();
    });
}

void write_parameters(JsonSink& to, const SeriesEvaluation& series, const Evaluation& evaluation) {
    write_object(to, [&] {
        for (const auto& parameter : series.parameters) {
            if (value_of(parameter.value) == nullptr && !parameter.stated) continue;
            to.key(parameter.name);
            write_parameter(to, parameter, series, [&] {
                if (find_uncertainty(evaluation, series.id, parameter.name) != nullptr) to.add("uncertainty", parameter.name);
            });
        }
    });
}

void write_line(JsonSink& to, const ReferenceLineResult& line, const SeriesEvaluation& series) {
    to.add("straightness", line.straightness.in(written_unit(line.straightness, series.unit)));
    to.add("slope", line.slope.in(units::micrometre_per_metre));
    to.add("offset", line.offset.in(written_unit(line.offset, series.unit)));
    if (line.one_way)
        to.add("approach", word(*line.one_way));
    else
        to.add("straightness_mean", line.mean_range.in(written_unit(line.mean_range, series.unit)));
}

void write_lines(JsonSink& to, const SeriesEvaluation& series) {
    write_object(to, [&] {
        for (const auto& line : series.lines) {
            to.key(word(line.kind));
            write_object(to, [&] { write_line(to, line, series); });
        }
    });
}

void write_local(JsonSink& to, const LocalStraightness& local, const SeriesEvaluation& series) {
    write_object(to, [&] {
        to.add("length", local.window.in(units::millimetre));
        to.add("unit", "mm");
        to.add("straightness", local.value.in(written_unit(local.value, series.unit)));
        to.add("from", local.from.in(units::position_millimetre));
        to.add("to", local.to.in(units::position_millimetre));
        to.add("reference_line", word(local.reference));
    });
}

void write_target(JsonSink& to, const TargetEvaluation& target, const SeriesEvaluation& series) {
    const auto& [positive, negative] = target.one_way;
    write_object(to, [&] {
        to.add("position", target.written);
        if (series.source == Source::Runs) {
            to.add("n_positive", positive.n);
            to.add("n_negative", negative.n);
        }
        add(to, "mean_positive", positive.mean, series.unit);
        add(to, "mean_negative", negative.mean, series.unit);
        add(to, "mean", target.mean, series.unit);
        add(to, "s_positive", positive.s, series.unit);
        add(to, "s_negative", negative.s, series.unit);
        add(to, "reversal", target.reversal, series.unit);
        add(to, "R_positive", positive.R, series.unit);
        add(to, "R_negative", negative.R, series.unit);
        add(to, "R", target.R, series.unit);
    });
}

void write_moved_target(JsonSink& to, const AtToolPoint::Target& target, const DeviationUnit& unit, const PositionUnit& position_unit) {
    write_object(to, [&] {
        to.add("position", target.position.in(position_unit));
        add(to, "effect_positive", target.effect.positive, unit);
        add(to, "effect_negative", target.effect.negative, unit);
        add(to, "mean_positive", target.mean.positive, unit);
        add(to, "mean_negative", target.mean.negative, unit);
    });
}

void write_not_evaluated(JsonSink& to, const std::vector<Parameter>& parameters) {
    write_object(to, [&] {
        for (const auto& parameter : parameters)
            if (const auto* obstacle = std::get_if<NotEvaluated>(&parameter.value)) to.add(parameter.name, obstacle->reason);
    });
}

/// At the tool point no uncertainty is given, so none is named.
void write_tool_point_parameters(JsonSink& to, const AtToolPoint& moved, const SeriesEvaluation& series) {
    write_object(to, [&] {
        for (const auto& parameter : moved.parameters) {
            if (value_of(parameter.value) == nullptr) continue;
            to.key(parameter.name);
            write_parameter(to, parameter, series, [] {});
        }
    });
}

void write_tool_point(JsonSink& to, const AtToolPoint& moved, const SeriesEvaluation& series) {
    write_object(to, [&] {
        to.add("offset_mm", moved.offset_mm);
        add(to, "largest", moved.largest, moved.unit);
        add_set_by(to, moved.set_by, series);
        to.add("unit", moved.unit.spelling);
        to.add("from", moved.from);
        to.key("parameters");
        write_tool_point_parameters(to, moved, series);
        to.key("targets");
        write_list(to, moved.targets, [&](JsonSink& into, const AtToolPoint::Target& target) {
            write_moved_target(into, target, moved.unit, series.position_unit);
        });
        to.key("not_evaluated");
        write_not_evaluated(to, moved.parameters);
    });
}

Json air_correction_json(const Evaluated<AirTakenOff>& evaluated, const SeriesEvaluation& series) {
    if (const auto* why = std::get_if<NotEvaluated>(&evaluated)) return {{"not_evaluated", why->reason}};
    const auto& air = std::get<AirTakenOff>(evaluated);
    return {{"um_per_m", air.um_per_m}, {"zero", air.zero.in(series.position_unit)}};
}

void write_excluded(JsonSink& to, const ExcludedReading& reading) {
    write_object(to, [&] {
        to.add("run", reading.run);
        to.add("target", reading.target);
        to.add("reason", reading.reason);
    });
}

void write_missing(JsonSink& to, const MissingReading& reading) {
    write_object(to, [&] {
        to.add("run", reading.run);
        to.add("target", reading.target);
    });
}

void write_condition(JsonSink& to, const Condition& condition) {
    write_object(to, [&] {
        to.add("name", condition.name);
        to.key("holds");
        if (condition.holds) to.truth(*condition.holds);
        else to.none();
        add(to, "found", condition.found);
        add(to, "asked", condition.asked);
        add(to, "unit", condition.unit);
        to.add("text", condition.text);
    });
}

void write_head(JsonSink& to, const SeriesEvaluation& series) {
    to.add("id", series.id);
    to.add("error", series.error.text());
    add(to, "state", series.state);
    to.add("kind", word(series.kind));
    to.add("unit", series.unit.spelling);
    to.add("position_unit", series.position_unit.spelling);
    to.add("standard", series.standard);
    to.add("source", word(series.source));
}

/// Conditions, parameters, lines, targets: what the readings at the targets say.
void write_results(JsonSink& to, const SeriesEvaluation& series, const Evaluation& evaluation) {
    to.key("conditions");
    write_list(to, series.conditions, write_condition);
    to.key("parameters");
    write_parameters(to, series, evaluation);
    if (!series.lines.empty()) {
        to.key("lines");
        write_lines(to, series);
    }
    if (!series.local.empty()) {
        to.key("local");
        write_list(to, series.local, [&](JsonSink& into, const LocalStraightness& local) { write_local(into, local, series); });
    }
    to.key("targets");
    write_list(to, series.targets, [&](JsonSink& into, const TargetEvaluation& target) { write_target(into, target, series); });
    to.key("excluded");
    write_list(to, series.excluded, write_excluded);
    to.key("missing");
    write_list(to, series.missing, write_missing);
}

}  // namespace

void write_series(JsonSink& to, const SeriesEvaluation& series, const Evaluation& evaluation) {
    write_object(to, [&] {
        write_head(to, series);
        write_results(to, series, evaluation);
        if (series.air_correction) to.add("air_correction", air_correction_json(*series.air_correction, series));
        add(to, "closing_error", series.closing_error, series.unit);
        if (series.trace) to.add("trace", trace_json(*series.trace, series));
        if (series.at_tool_point) {
            to.key("at_tool_point");
            write_tool_point(to, *series.at_tool_point, series);
        }
        to.key("not_evaluated");
        write_not_evaluated(to, series.parameters);
        const auto hints = std::ranges::find(evaluation.hints, series.id, &SeriesHints::series);
        if (hints != evaluation.hints.end()) to.add("hints", hints_json(*hints, series));
    });
}

}  // namespace wayfolio::evaluate
