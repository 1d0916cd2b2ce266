#include "evaluate/written/json_parts.hpp"
#include "evaluate/series/targets.hpp"

namespace wayfolio::evaluate {
namespace {

struct Words {
    double level;
    std::string unit;           ///< um or urad
    std::string position_unit;  ///< mm or deg
};

Json tested(const char* statistic, double p, bool raised, const Words& words) {
    return {{"raised", raised}, {"statistic", statistic}, {"p", p}, {"level", words.level}, {"unit", words.unit}};
}

Json to_json(const RunTrend& trend, const Words& words) {
    Json json =
        tested("Student's t of the slope over the order of the runs, one level for each approach", trend.p, trend.raised, words);
    json["change"] = trend.change;
    if (trend.per_hour != 0) json["per_hour"] = trend.per_hour;
    json["degrees_of_freedom"] = trend.degrees_of_freedom;
    if (trend.rank_p) json["rank_p"] = *trend.rank_p;
    return json;
}

Json to_json(const RunApart& apart, const Words& words) {
    Json json =
        tested("Student's t of the farthest run against the others, Bonferroni", apart.p, apart.raised, words);
    json.update({{"run", apart.run}, {"by", apart.by}, {"t", apart.t}});
    return json;
}

Json to_json(const RunJump& jump, const Words& words) {
    Json json = tested("Student's t of the best place of a step in the run means, Bonferroni", jump.p, jump.raised, words);
    json.update({{"run", jump.run}, {"by", jump.by}, {"t", jump.t}});
    return json;
}

Json to_json(const ReadingsSwapped& swapped, const Words& words) {
    Json json = tested("Student's t of the best pair of readings to exchange, Bonferroni", swapped.p, swapped.raised, words);
    json.update({{"run", swapped.run}, {"targets", swapped.targets}, {"by", swapped.by}, {"t", swapped.t}});
    return json;
}

Json to_json(const MissedCount& missed, const Words& words) {
    Json json = tested("Student's t of the best place of a step within the runs, Bonferroni", missed.p, missed.raised, words);
    json.update({{"run", missed.run}, {"target", missed.target}, {"by", missed.by}, {"stays", missed.stays}, {"t", missed.t}});
    return json;
}

Json to_json(const OutlierHint& outlier, Words words) {
    words.level = outlier.level;
    Json json = tested("farthest reading by the pooled standard deviation, Bonferroni", outlier.p, outlier.raised, words);
    json.update(
        {{"run", outlier.run}, {"target", outlier.target}, {"by", outlier.by}, {"T", outlier.T}, {"critical", outlier.critical}});
    if (outlier.decimal_slip) json["decimal_slip"] = *outlier.decimal_slip;
    return json;
}

Json to_json(const PeriodicHint& periodic, const Words& words) {
    Json json = tested("spectrum with a straight line, Baluev's bound", periodic.p, periodic.raised, words);
    json.update({{"amplitude", periodic.amplitude},
                 {"period", periodic.period},
                 {"aliases", periodic.aliases},
                 {"shortest_resolved", periodic.shortest_resolved},
                 {"position_unit", words.position_unit}});
    return json;
}

Json to_json(const ClosureHint& closure, const Words& words) {
    Json json = tested("Student's t of the reversal at the first target against the last", closure.p, closure.raised, words);
    json.update({{"difference", closure.difference}, {"t", closure.t}});
    return json;
}

template <class T>
Json hint_json(const Evaluated<T>& hint, const Words& words) {
    if (const auto* value = value_of(hint)) return to_json(*value, words);
    return {{"not_evaluated", std::get<NotEvaluated>(hint).reason}};
}

}  // namespace

Json hints_json(const SeriesHints& hints, const SeriesEvaluation& series) {
    Words words{hints.level, std::string(base_unit(series.unit.dimension).spelling),
                series.error.axis_is_rotary() ? "deg" : "mm"};
    Json json{{"trend", hint_json(hints.drift, words)},
              {"run_apart", hint_json(hints.apart, words)},
              {"run_jump", hint_json(hints.jump, words)},
              {"readings_swapped", hint_json(hints.swapped, words)},
              {"missed_count", hint_json(hints.missed_count, words)},
              {"left_out", hints.left_out},
              {"closure", hint_json(hints.closure, words)},
              {"periodic", hint_json(hints.periodic, words)},
              {"outliers", Json::array({hint_json(hints.outlier, words)})}};
    words.unit += "/m";
    json["growth"] = hint_json(hints.growth, words);
    return json;
}

}  // namespace wayfolio::evaluate
