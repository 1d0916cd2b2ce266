#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

namespace wayfolio::evaluate {
namespace {

Json place_json(const TracePlace& place, const SeriesEvaluation& series) {
    Json json = Json::object();
    if (place.sample) json["sample"] = *place.sample;
    json["position"] = place.position.in(series.position_unit);
    json["value"] = place.value.in(series.unit);
    return json;
}

Json line_json(const TraceLine& line, const SeriesEvaluation& series) {
    return {{"straightness", line.straightness.in(series.unit)},
            {"slope", line.slope.in(units::micrometre_per_metre)},
            {"offset", line.offset.in(series.unit)},
            {"highest", place_json(line.highest, series)},
            {"lowest", place_json(line.lowest, series)}};
}

Json lines_json(const std::vector<TraceLine>& lines, const SeriesEvaluation& series) {
    auto by_name = Json::object();
    for (const TraceLine& line : lines) by_name[std::string(word(line.kind))] = line_json(line, series);
    return by_name;
}

Json local_json(const std::vector<TraceLocal>& windows, const SeriesEvaluation& series) {
    auto list = Json::array();
    for (const TraceLocal& local : windows) {
        Json json{{"length", local.window.in(units::millimetre)}, {"unit", "mm"}};
        if (const auto* const widest = value_of(local.widest)) {
            json["straightness"] = widest->value.in(series.unit);
            json["at_most"] = widest->at_most.in(series.unit);
            json["from"] = widest->from.in(units::position_millimetre);
            json["to"] = widest->to.in(units::position_millimetre);
        } else {
            json["not_evaluated"] = std::get<NotEvaluated>(local.widest).reason;
        }
        add(json, "limit", local.limit, series.unit);
        list.push_back(std::move(json));
    }
    return list;
}

Json target_json(const TraceTarget& target, const DeviationUnit& unit) {
    Json json{{"position", target.written}, {"n_positive", target.one_way.positive.n}, {"n_negative", target.one_way.negative.n}};
    add(json, "mean_positive", target.one_way.positive.mean, unit);
    add(json, "mean_negative", target.one_way.negative.mean, unit);
    add(json, "s_positive", target.one_way.positive.s, unit);
    add(json, "s_negative", target.one_way.negative.s, unit);
    add(json, "reversal", target.reversal, unit);
    return json;
}

/// A result by its name, or why there is none.
template <class T, class ToJson>
void add_result(Json& into, Json& reasons, const char* name, const Evaluated<T>& evaluated, const ToJson& to_json) {
    if (const T* const value = value_of(evaluated)) into[name] = to_json(*value);
    else reasons[name] = std::get<NotEvaluated>(evaluated).reason;
}

Json filtered_json(const TraceFiltered& filtered, double cutoff, const SeriesEvaluation& series) {
    Json json{{"filter", "Gaussian low-pass of ISO 16610-21"},
              {"cutoff", cutoff},
              {"values", filtered.values},
              {"range", (filtered.highest.value - filtered.lowest.value).in(series.unit)},
              {"highest", place_json(filtered.highest, series)},
              {"lowest", place_json(filtered.lowest, series)}};
    auto reasons = Json::object();
    if (filtered.lines)
        add_result(json, reasons, "lines", *filtered.lines, [&](const auto& lines) { return lines_json(lines, series); });
    if (!filtered.local.empty()) json["local"] = local_json(filtered.local, series);
    if (!reasons.empty()) json["not_evaluated"] = std::move(reasons);
    return json;
}

}  // namespace

Json trace_json(const TraceEvaluation& trace, const SeriesEvaluation& series) {
    Json json{{"samples", trace.samples}, {"highest", place_json(trace.highest, series)}, {"lowest", place_json(trace.lowest, series)}};
    const auto largest = [&](const TraceLargest& found) {
        return Json{{"value", found.value.in(series.unit)}, {"position", found.position.in(series.position_unit)}};
    };
    auto reasons = Json::object();
    if (trace.samples > 1)
        json["range"] = (trace.highest.value - trace.lowest.value).in(series.unit);
    else
        reasons["range"] = "one sample has no range";
    const auto add = [&](const char* name, const auto& evaluated, const auto& to_json) {
        add_result(json, reasons, name, evaluated, to_json);
    };
    add("passes", trace.passes, [](const auto& count) { return Json{{"positive", count.positive}, {"negative", count.negative}}; });
    if (trace.lines)
        add("lines", *trace.lines, [&](const auto& lines) { return lines_json(lines, series); });
    if (!trace.local.empty()) json["local"] = local_json(trace.local, series);
    for (const TraceTarget& target : trace.targets) json["targets"].push_back(target_json(target, series.unit));
    add("reversal", trace.reversal, largest);
    add("repeatability_positive", trace.repeatability.positive, largest);
    add("repeatability_negative", trace.repeatability.negative, largest);
    if (trace.periodic)
        add("periodic", *trace.periodic, [&](const TracePeriod& period) {
            return Json{{"pitch", *trace.pitch}, {"amplitude", period.amplitude.in(series.unit)}, {"share", period.share}};
        });
    if (trace.filtered)
        add("filtered", *trace.filtered, [&](const TraceFiltered& filtered) { return filtered_json(filtered, *trace.cutoff, series); });
    if (!reasons.empty()) json["not_evaluated"] = std::move(reasons);
    return json;
}

}  // namespace wayfolio::evaluate
