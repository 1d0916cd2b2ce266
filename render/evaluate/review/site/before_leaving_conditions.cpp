#include "evaluate/review/site/before_leaving.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace wayfolio::evaluate {
namespace {

/// What an unmet condition of the standard is called, and what is to be done.
struct UnmetCondition {
    std::string_view name;
    FindingCode code;
    std::string_view act;
};

constexpr std::string_view agree = "agree with the customer on this test and write it to evaluation.agreed";

// clang-format off
constexpr std::array unmet_conditions{
    UnmetCondition{"both_directions", FindingCode::OneDirectionOnly, "measure the other approach"},
    UnmetCondition{"runs", FindingCode::TooFewRuns, "measure the missing runs and readings"},
    UnmetCondition{"one_approach_each_way", FindingCode::NotOneApproachEachWay, "measure one run each way over the whole travel"},
    UnmetCondition{"long_axis_test", FindingCode::NotLongAxisTest, "measure one run each way over the whole travel"},
    UnmetCondition{"targets", FindingCode::TooFewTargets, "measure with more targets"},
    UnmetCondition{"targets_per_metre", FindingCode::TargetsTooFarApart, "measure with more targets"},
    UnmetCondition{"mean_interval", FindingCode::TargetsTooFarApart, "measure with more targets"},
    UnmetCondition{"targets_per_revolution", FindingCode::TargetsTooFarApart, "measure with more targets"},
    UnmetCondition{"random_spacing", FindingCode::TargetsEvenlySpaced, "measure at targets with a random part in their spacing"},
    UnmetCondition{"principal_positions", FindingCode::PrincipalPositionsMissing, "measure at the principal positions too"},
    UnmetCondition{"measured_travel", FindingCode::MeasuredTravelTooLong, "measure over less travel"},
    UnmetCondition{"reference_temperature", FindingCode::ReferenceTemperature, "say in the report what the results refer to"},
    UnmetCondition{"expansion_correction_stated", FindingCode::ExpansionCoefficientMissing, "state the coefficient that was applied"},
};
// clang-format on

UnmetCondition unmet_called(const std::string& name) {
    const auto known =
        std::find_if(unmet_conditions.begin(), unmet_conditions.end(), [&](const auto& entry) { return entry.name == name; });
    return known == unmet_conditions.end() ? UnmetCondition{name, FindingCode::ConditionNotMet, "measure what is short"} : *known;
}

/// What the customer can agree to in place of the standard's test, and what then does not stand in the way: how many runs over how
/// much of the travel. A direction or targets that are missing stay missing.
bool can_be_agreed(FindingCode code) {
    return code == FindingCode::NotOneApproachEachWay || code == FindingCode::NotLongAxisTest || code == FindingCode::TooFewRuns;
}

void add_conditions(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (std::size_t i = 0; i < evaluation.series.size(); ++i)
        for (const Condition& condition : evaluation.series[i].conditions) {
            if (condition.holds != false) continue;
            const UnmetCondition unmet = unmet_called(condition.name);
            if (can_be_agreed(unmet.code) && !document.evaluation.agreed.empty()) continue;
            lines.push_back({unmet.code, condition.text, fmt::format("series {} (/series/{})", evaluation.series[i].id, i), "certain",
                             can_be_agreed(unmet.code) ? fmt::format("{}, or {}", unmet.act, agree) : std::string(unmet.act)});
        }
}

bool is_open(const SeriesEvaluation& series, std::string_view parameter) {
    const Parameter* found = find_parameter(series, parameter);
    return found && value_of(found->value) == nullptr;
}

/// Whether readings would give the value that a limit is held against: the series has the parameter, but no value for it.
bool needs_readings(const document::Document& document, const Evaluation& evaluation, const Decision& decision) {
    const auto is_open_in = [&](const std::string& id, std::string_view parameter) {
        const SeriesEvaluation* series = find_series(evaluation, id);
        // No reference line is defined for a rotary axis, however many readings there are.
        const bool undefined = series && series->kind == SeriesKind::Straightness && series->error.axis_is_rotary();
        return series && !undefined && is_open(*series, parameter);
    };
    if (!decision.axes) return is_open_in(decision.series, decision.parameter == "local" ? "straightness" : decision.parameter);
    return std::any_of(document.squareness.begin(), document.squareness.end(), [&](const auto& request) {
        return request.axes == *decision.axes && request.series[0] == decision.series &&
               (is_open_in(request.series[0], "slope") || is_open_in(request.series[1], "slope"));
    });
}

std::string place_of_limit(const Evaluation& evaluation, const Decision& decision) {
    if (decision.axes) return fmt::format("squareness of {} to {} (/squareness)", (*decision.axes)[0], (*decision.axes)[1]);
    const auto series =
        std::find_if(evaluation.series.begin(), evaluation.series.end(), [&](const auto& entry) { return entry.id == decision.series; });
    return fmt::format("series {} (/series/{}/tolerances)", decision.series, series - evaluation.series.begin());
}

void add_undecided(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    for (const Decision& decision : evaluation.decisions) {
        if (decision.outcome != Outcome::NotDecided) continue;
        const bool readings = needs_readings(document, evaluation, decision);
        lines.push_back(
            {readings ? FindingCode::LimitLacksReadings : FindingCode::LimitLacksPapers,
             fmt::format("the limit on {} of series {} is not evaluated: {}", decision.parameter, decision.series, decision.reason),
             place_of_limit(evaluation, decision), "certain", readings ? "measure what is missing" : "state what is missing"});
    }
}

}  // namespace

void add_unmet_conditions(std::vector<BeforeLeaving>& lines, const document::Document& document, const Evaluation& evaluation) {
    add_conditions(lines, document, evaluation);
    add_undecided(lines, document, evaluation);
    for (std::size_t i = 0; i < evaluation.compensation.size(); ++i) {
        const auto& request = evaluation.compensation[i];
        if (!request.refused.empty())
            lines.push_back(
                {FindingCode::CompensationNotSupported,
                 fmt::format("the data do not support the compensation asked for axis {}: {}", request.axis, request.refused.front()),
                 fmt::format("compensation request {} (/compensation/{})", i + 1, i), "certain",
                 "measure at the table's spacing over its range"});
    }
}

}  // namespace wayfolio::evaluate
