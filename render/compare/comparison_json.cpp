#include "compare/comparison.hpp"
#include "evaluate/written/json_parts.hpp"
#include "evaluate/written/words.hpp"

#include <algorithm>

namespace wayfolio::compare {

namespace {

using evaluate::Json;

std::string_view word(Yardstick yardstick) {
    switch (yardstick) {
        case Yardstick::LargerU: return "the larger u: same readings";
        case Yardstick::RootSumSquare: return "root of the sum of squares of both u: other readings";
        case Yardstick::None: return "none";
    }
    throw std::logic_error("no such yardstick");
}

Json parameter_json(const ParameterChange& change) {
    auto json = Json::object();
    evaluate::add(json, "series", change.series);
    json["error"] = change.error;
    evaluate::add(json, "state", change.state);
    json["parameter"] = change.parameter;
    if (change.name != change.parameter) json["name"] = change.name;
    if (change.at_tool_point) json["at_tool_point"] = true;
    evaluate::add(json, "length_mm", change.length_mm);
    if (change.line) json["reference_line"] = evaluate::word(*change.line);
    if (change.axes) json["axes"] = *change.axes;
    if (change.from) json["from"] = *change.from;
    json["unit"] = change.unit.spelling;
    evaluate::add(json, "was", change.was, change.unit);
    evaluate::add(json, "now", change.now, change.unit);
    evaluate::add(json, "difference", change.difference, change.unit);
    evaluate::add(json, "U_was", change.expanded_was, change.unit);
    evaluate::add(json, "U_now", change.expanded_now, change.unit);
    evaluate::add(json, "k_was", change.factor_was);
    evaluate::add(json, "k_now", change.factor_now);
    evaluate::add(json, "U_difference", change.expanded_difference, change.unit);
    evaluate::add(json, "difference_over_U", change.against_U);
    if (change.yardstick != Yardstick::None) json["held_against"] = word(change.yardstick);
    evaluate::add(json, "not_evaluated_was", change.reason_was);
    evaluate::add(json, "not_evaluated_now", change.reason_now);
    return json;
}

/// Which changes moved a result, by their places under "changes" and "readings".
Json cause_json(const Cause& cause, const Comparison& comparison) {
    Json json{{"changes", Json::array()}, {"readings", Json::array()}};
    for (const std::size_t place : cause.changes) {
        const bool of_documents = place < comparison.changes.size();
        json[of_documents ? "changes" : "readings"].push_back(of_documents ? place : place - comparison.changes.size());
    }
    return json;
}

Json readings_json(const ReadingChanges& readings) {
    Json json{{"series", readings.series}, {"same_targets_and_runs", readings.same_plan}};
    if (!readings.same_plan) return json;
    json["other_values"] = readings.other_values;
    json["set_aside"] = readings.set_aside;
    json["taken_back"] = readings.taken_back;
    json["unit"] = readings.unit.spelling;
    evaluate::add(json, "largest_difference", readings.largest, readings.unit);
    return json;
}

}  // namespace

std::string comparison_json(const Comparison& comparison, const std::optional<std::vector<Cause>>& causes) {
    Json json{
        {"format", "wayfolio-comparison"}, {"version", 1}, {"was", comparison.was}, {"now", comparison.now}, {"same", comparison.same()}};
    evaluate::add(json, "state_was", comparison.state_was);
    evaluate::add(json, "state_now", comparison.state_now);
    json["only_was"] = comparison.only_was;
    json["only_now"] = comparison.only_now;
    json["series_compared"] = comparison.series_compared;
    json["paired_by_error"] = Json::array();
    for (const OtherId& pair : comparison.paired_by_error) {
        Json one{{"was", pair.was}, {"now", pair.now}};
        evaluate::add(one, "state_was", pair.state_was);
        evaluate::add(one, "state_now", pair.state_now);
        json["paired_by_error"].push_back(std::move(one));
    }
    json["causes_sought"] = causes.has_value();
    json["changes"] = Json::array();
    for (const Change& change : comparison.changes) {
        Json one{{"pointer", change.pointer}};
        evaluate::add(one, "of", change.of);
        evaluate::add(one, "was", change.was);
        evaluate::add(one, "now", change.now);
        json["changes"].push_back(std::move(one));
    }
    json["readings"] = Json::array();
    for (const ReadingChanges& readings : comparison.readings) json["readings"].push_back(readings_json(readings));
    json["parameters"] = Json::array();
    for (const ParameterChange& change : comparison.parameters) {
        json["parameters"].push_back(parameter_json(change));
        if (!causes) continue;
        const auto cause = std::ranges::find_if(
            *causes, [&](const Cause& one) { return one.series == change.series && one.parameter == change.parameter; });
        if (cause != causes->end()) json["parameters"].back()["because_of"] = cause_json(*cause, comparison);
    }
    json["verdicts"] = Json::array();
    for (const VerdictChange& verdict : comparison.verdicts) {
        Json one{{"series", verdict.series}, {"parameter", verdict.parameter}};
        if (verdict.outcome_was) one["was"] = evaluate::word(*verdict.outcome_was);
        if (verdict.outcome_now) one["now"] = evaluate::word(*verdict.outcome_now);
        one["verdict_was"] = evaluate::word(verdict.was);
        one["verdict_now"] = evaluate::word(verdict.now);
        json["verdicts"].push_back(std::move(one));
    }
    return evaluate::to_text(json) + "\n";
}

}  // namespace wayfolio::compare
