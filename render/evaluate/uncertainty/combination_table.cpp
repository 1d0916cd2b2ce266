#include "evaluate/uncertainty/combination_table.hpp"

#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/series/mean_trace.hpp"
#include "evaluate/series/targets.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace wayfolio::evaluate {

namespace {

using document::both_approaches;
using document::Influence;

/// What one direction at one target brings in: scatter of its mean, uncertainty of its s.
struct Weights {
    double of_mean;  ///< multiplies s / sqrt n and d / sqrt n
    double of_s;     ///< multiplies u(s)
};

struct Ends {
    PositionUnit places;  ///< as the series has its targets
    std::vector<Component> parts{};
    double drift_sum = 0;  ///< sum of weight^2 / n
};

std::string scatter_name(const TargetEvaluation& target, const PositionUnit& unit, Approach approach) {
    const auto space = unit == units::position_degree ? std::string_view() : units::thin_space;
    constexpr int most = 4;
    const std::string place = units::number(target.written, units::decimals_needed(target.written, most), {});
    return fmt::format("standard deviation at {}{}{}, {}", place, space, unit.symbol, word(approach));
}

/// Not named: most that are made for all reversals are added up and never told. Nothing where there is no scatter.
Component* add_scatter(Ends& ends, const OneWay& one_way, const Weights& weights) {
    const auto n = static_cast<double>(one_way.n);
    if (n < 1) return nullptr;
    ends.drift_sum += weights.of_mean * weights.of_mean / n;
    const auto& s = one_way.s;
    if (!s) return nullptr;
    Component& scatter = ends.parts.emplace_back();
    scatter.standard = s->in(base_unit(s->dimension()));
    // Mean and s of one sample are independent; both scale with the same s, so they make one contributor with n - 1.
    scatter.sensitivity = std::hypot(weights.of_mean / std::sqrt(n),
                                     weights.of_s * uncertainty_of_standard_deviation(1, one_way.n));
    scatter.degrees_of_freedom = n - 1;
    return &scatter;
}

void add_end(Ends& ends, const TargetEvaluation& target, Approach approach, const Weights& weights) {
    const OneWay& one_way = target.one_way[approach];
    Component* scatter = add_scatter(ends, one_way, weights);
    if (!scatter) return;
    scatter->name = scatter_name(target, ends.places, approach);
    scatter->basis = fmt::format("type A, {} readings", one_way.n);
    scatter->distribution = "normal";
    scatter->influence = Influence::Scatter;
}

void add_both(Ends& ends, const TargetEvaluation& target, const Weights& weights) {
    for (const Approach approach : both_approaches) add_end(ends, target, approach, weights);
}

Ends ends_of(const SeriesEvaluation& series, const Parameter& parameter, const Weights& weights) {
    Ends ends{.places = series.position_unit};
    for (const SetBy& by : parameter.set_by) {
        const TargetEvaluation& target = series.targets[by.index];
        if (by.approach)
            add_end(ends, target, *by.approach, weights);
        else
            add_both(ends, target, {weights.of_mean / 2, weights.of_s / 2});
    }
    return ends;
}

/// Scatter of B_mean: all targets in one contributor.
Ends all_reversals(const SeriesEvaluation& series) {
    Ends single{.places = series.position_unit};
    double m = 0;
    for (const TargetEvaluation& target : series.targets)
        if (target.reversal) {
            for (const Approach approach : both_approaches) add_scatter(single, target.one_way[approach], {1, 0});
            ++m;
        }
    Component all;
    all.parts = std::move(single.parts);
    if (all.parts.empty()) return {single.places, {}, single.drift_sum / (m * m)};
    const Combined combined = combine(all);
    Component scatter;
    scatter.name = "standard deviation of all reversal values";
    scatter.basis = "type A, both approaches at every target";
    scatter.distribution = "normal";
    scatter.standard = combined.standard;
    scatter.sensitivity = 1 / m;
    scatter.degrees_of_freedom = combined.degrees_of_freedom;
    scatter.influence = Influence::Scatter;
    return {single.places, {scatter}, single.drift_sum / (m * m)};
}

/// What a place that sets the parameter brings in. R both ways and B are set at one target by both directions: the halves of a
/// bidirectional setting are doubled again, so that both enter in full. Nothing for a parameter that no target sets.
std::optional<Weights> weights_of(const Parameter& parameter) {
    const std::string_view name = stem(parameter.name);
    const bool one_way = parameter.set_by.size() == 1 && parameter.set_by[0].approach.has_value();
    if (name == "R") return one_way ? Weights{0, 4} : Weights{2, 4};
    if (name == "B") return Weights{2, 0};
    if (name == "A") return Weights{1, 2};
    if (name == "E" || name == "M" || name == "straightness" || name == "straightness_mean" || name == "angle") return Weights{1, 0};
    return std::nullopt;
}

/// Of tied places those that no others surpass: with less scatter, and neither farther to one side nor to the other, a place gives no
/// larger uncertainty whichever place the other end is at.
template <class Scatter>
std::vector<SetBy> foremost(std::vector<SetBy> places, const Scatter& scatter) {
    std::stable_sort(places.begin(), places.end(), [](const SetBy& a, const SetBy& b) { return a.position < b.position; });
    std::vector<double> sizes;
    for (const SetBy& by : places) sizes.push_back(scatter(by));
    std::vector<bool> kept(places.size(), false);
    double most = -1;
    for (std::size_t i = 0; i < places.size(); ++i)
        if (sizes[i] > most) kept[i] = true, most = sizes[i];
    most = -1;
    for (std::size_t i = places.size(); i-- > 0;)
        if (sizes[i] > most) kept[i] = true, most = sizes[i];
    std::vector<SetBy> chosen;
    for (std::size_t i = 0; i < places.size(); ++i)
        if (kept[i]) chosen.push_back(places[i]);
    return chosen;
}

Component whole(Ends ends, std::vector<Component> systematic, const SeriesContributors& contributors) {
    Component budget;
    budget.parts = std::move(systematic);
    std::move(ends.parts.begin(), ends.parts.end(), std::back_inserter(budget.parts));
    if (contributors.drift && ends.drift_sum > 0) {
        budget.parts.push_back(*contributors.drift);
        budget.parts.back().sensitivity = std::sqrt(ends.drift_sum);
    }
    return budget;
}

std::optional<Component> slope_budget(const SeriesEvaluation& series, const SeriesContributors& contributors, double length_m) {
    const MeanTrace trace = mean_trace(series);
    if (trace.x.size() < 3 || !(length_m > 0)) return std::nullopt;
    const LineFit fit = fit_line(trace.x, trace.y);
    Component scatter;
    scatter.name = "residuals of the line";
    scatter.basis = "type A, least squares";
    scatter.distribution = "normal";
    scatter.standard = fit.u_slope;
    scatter.sensitivity = 1e3;  // µm/mm to µm/m
    scatter.degrees_of_freedom = static_cast<double>(fit.degrees_of_freedom);
    scatter.influence = Influence::Scatter;
    Component budget;
    budget.parts = systematic_parts(contributors, length_m);
    for (Component& part : budget.parts) part.sensitivity /= length_m;
    budget.parts.push_back(std::move(scatter));
    return budget;
}

}  // namespace

std::string_view stem(std::string_view name) {
    for (const std::string_view end : {"_positive", "_negative"})
        if (name.ends_with(end)) return name.substr(0, name.size() - end.size());
    return name;
}

bool depends_on_length(std::string_view parameter) {
    return parameter != "R" && stem(parameter) != "R" && parameter != "B" && parameter != "B_mean";
}

std::optional<double> setting_distance_m(const Parameter& parameter) {
    if (parameter.set_by.size() != 2) return std::nullopt;
    const Deviation distance = units::abs(parameter.set_by[0].position - parameter.set_by[1].position);
    if (distance.dimension() != units::Dimension::Length) return std::nullopt;
    return distance.in(units::metre);
}

std::optional<double> longest_setting_distance_m(const Parameter& parameter) {
    auto longest = setting_distance_m(parameter);
    if (!longest) return longest;
    std::vector<SetBy> places = parameter.tied;
    places.insert(places.end(), parameter.set_by.begin(), parameter.set_by.end());
    const auto outermost = [&](Side side) {
        std::pair<double, double> ends{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
        for (const SetBy& by : places) {
            if (by.side != side) continue;
            const double at = by.position.in(units::position_metre);
            ends = {std::min(ends.first, at), std::max(ends.second, at)};
        }
        return ends;
    };
    const auto high = outermost(Side::Max), low = outermost(Side::Min);
    longest = std::max(high.second - low.first, low.second - high.first);
    return longest;
}

double measured_travel_m(const SeriesEvaluation& series) {
    if (series.targets.empty() || series.error.axis_is_rotary()) return 0;
    return (series.targets.back().position - series.targets.front().position).in(units::metre);
}

std::optional<Component> budget_of(const SeriesEvaluation& series, const Parameter& parameter,
                                   const SeriesContributors& contributors, double length_m) {
    const std::string_view name = stem(parameter.name);
    if (name == "slope") return slope_budget(series, contributors, length_m);
    if (name == "B_mean") return whole(all_reversals(series), {}, contributors);
    const auto weights = weights_of(parameter);
    if (!weights) return std::nullopt;
    auto systematic = depends_on_length(parameter.name) ? systematic_parts(contributors, length_m) : std::vector<Component>{};
    return whole(ends_of(series, parameter, *weights), std::move(systematic), contributors);
}

std::vector<Parameter> settings_of(const SeriesEvaluation& series, const Parameter& parameter, const SeriesContributors& contributors) {
    std::vector<Parameter> settings{parameter};
    if (!weights_of(parameter)) return settings;
    const auto scatter = [&](const SetBy& by) {
        const Parameter alone{.name = parameter.name, .value = parameter.value, .set_by = {by}};
        return combine(whole(ends_of(series, alone, *weights_of(alone)), {}, contributors)).standard;
    };
    for (std::size_t place = 0; place < parameter.set_by.size(); ++place) {
        std::vector<SetBy> others;
        for (const SetBy& by : parameter.tied)
            if (by.side == parameter.set_by[place].side) others.push_back(by);
        if (others.empty()) continue;
        others.push_back(parameter.set_by[place]);
        const std::vector<Parameter> before = settings;
        for (const SetBy& by : foremost(std::move(others), scatter))
            for (Parameter setting : before) {
                setting.set_by[place] = by;
                settings.push_back(std::move(setting));
            }
    }
    return settings;
}

Component local_budget(const SeriesEvaluation& series, const SeriesContributors& contributors, double length_m) {
    double squares = 0, freedom = 0, fewest = 0;
    for (const TargetEvaluation& target : series.targets) {
        const double readings = static_cast<double>(target.one_way.positive.n + target.one_way.negative.n);
        if (readings > 0 && (fewest == 0 || readings < fewest)) fewest = readings;
        for (const Approach approach : both_approaches) {
            const auto& s = target.one_way[approach].s;
            if (!s) continue;
            const double nu = static_cast<double>(target.one_way[approach].n) - 1;
            squares += nu * std::pow(s->in(base_unit(s->dimension())), 2);
            freedom += nu;
        }
    }
    Ends ends{.places = series.position_unit};
    if (fewest > 0) ends.drift_sum = 2 / fewest;
    if (fewest > 0 && freedom > 0) {
        Component scatter;
        scatter.name = "standard deviation at the ends of the range";
        scatter.basis = "type A, pooled over all targets";
        scatter.distribution = "normal";
        scatter.standard = std::sqrt(squares / freedom);
        scatter.sensitivity = std::sqrt(2 / fewest);
        scatter.degrees_of_freedom = freedom;
        scatter.influence = Influence::Scatter;
        ends.parts.push_back(std::move(scatter));
    }
    return whole(std::move(ends), systematic_parts(contributors, length_m), contributors);
}

std::vector<std::string> scatter_notes(const SeriesEvaluation& series, const Parameter& parameter) {
    const auto lacks = [&](const SetBy& by) {
        const TargetEvaluation& target = series.targets[by.index];
        if (by.approach) return !target.one_way[*by.approach].s;
        return !target.one_way.positive.s || !target.one_way.negative.s;
    };
    if (std::any_of(parameter.set_by.begin(), parameter.set_by.end(), lacks))
        return {"Single readings at a target that sets the value: their standard deviation is not in the budget."};
    return {};
}

}  // namespace wayfolio::evaluate
