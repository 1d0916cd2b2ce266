#include "catalogue/history_words.hpp"

#include "evaluate/written/json_text.hpp"
#include "input/encoding.hpp"

namespace wayfolio::catalogue {
namespace {

using evaluate::add;
using evaluate::Json;

Json point_json(const HistoryPoint& point) {
    Json json{{"day", point.day},
              {"job", input::printable(point.job)},
              {"revision", point.revision},
              {"record", input::printable(point.folder)},
              {"series", input::printable(point.series)}};
    add(json, "state", input::printable(point.state));
    add(json, "value", point.value);
    add(json, "expanded", point.expanded);
    add(json, "limit", point.limit);
    add(json, "outcome", point.outcome);
    if (!point.outcome.empty()) json["verdict"] = evaluate::word(standing_of(point.outcome, point.value, point.limit));
    add(json, point.value ? "reason" : "not_evaluated", input::printable(point.reason));
    add(json, "not_in_trend", point.apart);
    return json;
}

Json drift_json(const HistoryLine& line) {
    const Drift* drift = evaluate::value_of(line.drift);
    if (!drift) return {{"not_evaluated", std::get<evaluate::NotEvaluated>(line.drift).reason}};
    Json json{{"points", drift->points},
              {"from", drift->from},
              {"to", drift->to},
              {"since_adjustment", drift->since_adjustment},
              {"slope_per_year", drift->fit.slope},
              {"at_from", drift->fit.intercept},
              {"slope_standard", drift->fit.slope_standard},
              {"degrees_of_freedom", drift->fit.degrees_of_freedom}};
    add(json, "t", drift->fit.t);
    add(json, "p", drift->fit.p);
    json["significant"] = drift->significant;
    json["horizon_years"] = drift->horizon;
    if (drift->reached) json["limit_reached_with_U"] = month_after(drift->to, *drift->reached);
    if (drift->value_reached) json["limit_reached"] = month_after(drift->to, *drift->value_reached);
    return json;
}

std::string_view kind_word(HistoryWarning::Kind kind) {
    switch (kind) {
        case HistoryWarning::Kind::BeyondLimit: return "beyond_limit";
        case HistoryWarning::Kind::AtLimitWithU: return "at_limit_with_U";
        case HistoryWarning::Kind::TowardsLimit: return "towards_limit";
    }
    return "";
}

Json line_json(const HistoryLine& line) {
    Json json{{"error", line.error}, {"parameter", line.parameter}};
    add(json, "axis", line.axis);
    add(json, "reference_line", line.reference_line);
    add(json, "series", input::printable(line.series));
    add(json, "unit", line.unit);
    json["points"] = Json::array();
    for (const HistoryPoint& point : line.points) json["points"].push_back(point_json(point));
    json["trend"] = drift_json(line);
    json["warnings"] = Json::array();
    for (const HistoryWarning& warning : line.warnings)
        json["warnings"].push_back({{"kind", kind_word(warning.kind)}, {"text", warning.text}});
    json["notes"] = line.notes;
    return json;
}

Json printable_json(const std::vector<std::string>& texts) {
    auto json = Json::array();
    for (const std::string& text : texts) json.push_back(input::printable(text));
    return json;
}

}  // namespace

std::string history_json(const History& history) {
    Json json{{"format", "wayfolio-history"},
              {"version", 1},
              {"machine", input::printable(history.machine)},
              {"serial", input::printable(history.serial)},
              {"customer", input::printable(history.customer)},
              {"visits", history.visits},
              {"from", history.from},
              {"to", history.to},
              {"notices", printable_json(history.notices)},
              {"left_out", printable_json(history.left_out)}};
    json["lines"] = Json::array();
    for (const HistoryLine& line : history.lines) json["lines"].push_back(line_json(line));
    return evaluate::to_text(json);
}

}  // namespace wayfolio::catalogue
