#pragma once
#include "evaluate/numbers/monte_carlo.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "evaluate/series/positioning.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/series/targets.hpp"
#include "evaluate/uncertainty/combination_table.hpp"
#include "evaluate/uncertainty/scatter/scatter_bias.hpp"
#include "evaluate/uncertainty/uncertainty.hpp"
#include "support/documents.hpp"

#include <cmath>
#include <numbers>

/// Jobs on an axis whose true means and scatter are known, for judging what is said of ranges and maxima. The scatter of a reading is
/// 1 µm; the truth of a parameter is its own formula on the true means (for A and R with the true scatter in the place of s).
namespace wayfolio::support {

enum class Shape {
    Flat,      ///< all true means 0, no reversal
    Sloped,    ///< 5 µm over the travel, reversal 2 µm
    Periodic,  ///< 3 µm amplitude, 2.5 periods, random phase, reversal 1 µm
};

struct ScatterPlan {
    Shape shape = Shape::Flat;
    std::size_t targets = 11, readings = 5;
    double systematic = 0;  ///< µm over the travel: one draw a job, a slope of a positioning axis, a bow of a straight one
};

/// The same axis as measured and as it is.
struct ScatterJob {
    evaluate::SeriesEvaluation measured, truth;
};

inline evaluate::TargetEvaluation known_target(std::size_t index, double mm) {
    return {.index = index, .position = units::Position(mm, units::position_millimetre), .written = mm};
}

inline evaluate::OneWay known_results(std::size_t n, double mean, double s) {
    return {.n = n, .mean = units::Deviation(units::micrometre(mean)), .s = units::Deviation(units::micrometre(s))};
}

inline evaluate::SeriesEvaluation known_series(const std::string& symbol, std::vector<evaluate::TargetEvaluation> targets) {
    const bool straight = symbol == "EYX";
    evaluate::SeriesEvaluation series{.id = "s",
                                      .state = "as-left",
                                      .standard = straight ? "ISO 230-1:2012" : "ISO 230-2:2014",
                                      .error = document::error_symbol(symbol).value(),
                                      .kind = straight ? evaluate::SeriesKind::Straightness : evaluate::SeriesKind::Positioning,
                                      .source = evaluate::Source::Runs,
                                      .unit = units::micrometre,
                                      .position_unit = units::position_millimetre,
                                      .targets = std::move(targets)};
    for (auto& target : series.targets) evaluate::derive_target(target);
    if (straight)
        evaluate::add_straightness(series, document::ReferenceLine::LeastSquares);
    else
        series.parameters = evaluate::positioning_parameters(series.targets, units::position_millimetre);
    return series;
}

inline double true_mean(Shape shape, double t, double phase) {
    switch (shape) {
        case Shape::Flat:
            return 0;
        case Shape::Sloped:
            return 5 * t;
        case Shape::Periodic:
            return 3 * std::sin(2 * std::numbers::pi * 2.5 * t + phase);
    }
    return 0;
}

inline double half_reversal(Shape shape) { return shape == Shape::Flat ? 0 : shape == Shape::Sloped ? 1 : 0.5; }

/// @param symbol "EXX" or "EYX"
inline ScatterJob scatter_job(evaluate::Draws& draws, const ScatterPlan& plan, const std::string& symbol) {
    const double phase = draws.rectangular(0, 2 * std::numbers::pi), systematic = draws.normal(0, plan.systematic);
    std::vector<evaluate::TargetEvaluation> measured, truth;
    for (std::size_t i = 0; i < plan.targets; ++i) {
        const double t = static_cast<double>(i) / static_cast<double>(plan.targets - 1);
        measured.push_back(known_target(i, 1000 * t));
        truth.push_back(known_target(i, 1000 * t));
        for (const auto approach : document::both_approaches) {
            const double side = approach == document::Approach::Positive ? 1 : -1;
            const double mean = true_mean(plan.shape, t, phase) + side * half_reversal(plan.shape);
            std::vector<double> readings(plan.readings);
            for (double& reading : readings)
                reading = mean + systematic * (symbol == "EYX" ? 4 * t * (1 - t) : t) + draws.normal(0, 1);
            truth.back().one_way[approach] = known_results(plan.readings, mean, 1);
            measured.back().one_way[approach] =
                known_results(plan.readings, evaluate::mean(readings), evaluate::standard_deviation(readings));
        }
    }
    return {known_series(symbol, std::move(measured)), known_series(symbol, std::move(truth))};
}

/// Whether the truth of one parameter lies within what is said of it.
struct Held {
    std::string parameter;
    bool by_U;          ///< value ± U alone
    bool by_statement;  ///< the interval where it is stated, else value ± U
    double U, bias, error, width;  ///< µm; `width` of the statement
};

inline std::optional<Held> held(const ScatterJob& job, const evaluate::Parameter& parameter, const ScatterPlan& plan) {
    static const document::Document nothing;
    const double value = std::get<units::Deviation>(parameter.value).in(units::micrometre);
    const double truth =
        std::get<units::Deviation>(evaluate::find_parameter(job.truth, parameter.name)->value).in(units::micrometre);
    evaluate::SeriesContributors contributors;
    if (plan.systematic > 0)
        contributors.listed.push_back({.component = {.name = "known", .standard = plan.systematic}, .correlated = {}});
    const auto budget = evaluate::budget_of(job.measured, parameter, contributors, evaluate::measured_travel_m(job.measured));
    auto entry = evaluate::computed(nothing, budget.value(), units::micrometre);
    entry.parameter = parameter.name;
    evaluate::add_interval(entry, job.measured, contributors);
    if (!entry.interval) return std::nullopt;
    const double U = entry.expanded.in(units::micrometre);
    const bool by_U = std::abs(value - truth) <= U;
    const double low = entry.interval->low.in(units::micrometre), high = entry.interval->high.in(units::micrometre);
    const bool stated = entry.interval->stated;
    return Held{.parameter = parameter.name,
                .by_U = by_U,
                .by_statement = stated ? low <= truth && truth <= high : by_U,
                .U = U,
                .bias = std::get<evaluate::ScatterBias>(parameter.scatter_bias.value()).up_to(),
                .error = value - truth,
                .width = stated ? high - low : 2 * U};
}

}  // namespace wayfolio::support
