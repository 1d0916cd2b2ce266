#include "evaluate/uncertainty/scatter/scatter_bias.hpp"

#include "evaluate/numbers/budget.hpp"
#include "evaluate/uncertainty/scatter/extreme_noise.hpp"
#include "evaluate/series/targets.hpp"
#include "evaluate/uncertainty/combination_table.hpp"
#include "evaluate/uncertainty/scatter/target_noise.hpp"

#include <algorithm>
#include <tuple>

namespace wayfolio::evaluate {

namespace {

using document::both_approaches;

/// A value that may be the largest, in base units.
struct Contender {
    double level;
    BuiltOf built;
};

struct Contenders {
    std::vector<Contender> high, low;  ///< levels of the low ones with their sign turned; none for a maximum
};

double along(const TargetEvaluation& target) { return target.position.in(natural_unit(target.position.dimension())); }

std::vector<Approach> directions_of(std::string_view name) {
    if (name.ends_with("_positive")) return {Approach::Positive};
    if (name.ends_with("_negative")) return {Approach::Negative};
    return {Approach::Positive, Approach::Negative};
}

BuiltOf of_one(std::size_t target, Approach approach, double of_mean, double of_s) {
    BuiltOf built{.target = target};
    built.of_mean[approach] = of_mean;
    built.of_s[approach] = of_s;
    return built;
}

/// Mean ± k s of every target and direction.
void add_bands(Contenders& all, Targets targets, std::string_view name, double k) {
    for (std::size_t i = 0; i < targets.size(); ++i)
        for (const Approach approach : directions_of(name)) {
            const auto& [n, mean, s, R] = targets[i].one_way[approach];
            if (!mean || (k > 0 && !s)) continue;
            const double half = k > 0 ? k * in_base_unit(*s) : 0;
            all.high.push_back({in_base_unit(*mean) + half, of_one(i, approach, 1, k)});
            all.low.push_back({half - in_base_unit(*mean), of_one(i, approach, 1, k)});
        }
}

void add_middles(Contenders& all, Targets targets) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
        if (!targets[i].mean) continue;
        all.high.push_back({in_base_unit(*targets[i].mean), {.target = i, .of_mean = {0.5, 0.5}}});
        all.low.push_back({-in_base_unit(*targets[i].mean), {.target = i, .of_mean = {0.5, 0.5}}});
    }
}

/// k s_up + k s_down + B and - B of every target: a reversal whose sign is clear has one near the top, an unclear one both.
void add_reversals(Contenders& all, Targets targets, double k) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const auto& [up, down] = targets[i].one_way;
        if (!targets[i].reversal || (k > 0 && (!up.s || !down.s))) continue;
        const double spread = k > 0 ? k * (in_base_unit(*up.s) + in_base_unit(*down.s)) : 0, reversal = in_base_unit(*targets[i].reversal);
        for (const double size : {spread + reversal, spread - reversal})
            all.high.push_back({size, {.target = i, .of_mean = {1, 1}, .of_s = {k, k}}});
    }
}

void add_spreads(Contenders& all, Targets targets, std::string_view name) {
    for (std::size_t i = 0; i < targets.size(); ++i)
        for (const Approach approach : directions_of(name))
            if (const auto& s = targets[i].one_way[approach].s) all.high.push_back({4 * in_base_unit(*s), of_one(i, approach, 0, 4)});
}

/// Levels from the line that the parameter is taken about.
void level(Contenders& all, const SeriesEvaluation& series, const Parameter& parameter) {
    const auto line = std::find_if(series.lines.begin(), series.lines.end(),
                                   [&](const ReferenceLineResult& one) { return one.kind == parameter.reference_line; });
    if (line == series.lines.end()) return;
    const auto at = [&](const Contender& one) {
        const double mm = series.targets[one.built.target].position.in(units::position_millimetre);
        return in_base_unit(line->offset) + line->slope.in(units::micrometre_per_metre) * mm / 1e3;
    };
    for (Contender& one : all.high) one.level -= at(one);
    for (Contender& one : all.low) one.level += at(one);
}

/// Nothing for a parameter that is neither a range nor a maximum of the table.
Contenders contenders(const SeriesEvaluation& series, const Parameter& parameter) {
    Contenders all;
    const std::string_view name = parameter.name, of = stem(name);
    if (of == "A") add_bands(all, series.targets, name, 2);
    if (of == "E" || of == "angle" || of == "straightness") add_bands(all, series.targets, name, 0);
    if (of == "M" || of == "straightness_mean") add_middles(all, series.targets);
    if (name == "B") add_reversals(all, series.targets, 0);
    if (name == "R") add_reversals(all, series.targets, 2);
    if (of == "R") add_spreads(all, series.targets, name);
    if (parameter.reference_line) level(all, series, parameter);
    return all;
}

struct Noise {
    const std::vector<TargetNoise>& targets;
    LineNoise line;
    const SeriesEvaluation& series;

    [[nodiscard]] double lever(const BuiltOf& built, double from) const { return along(series.targets[built.target]) - from; }

    [[nodiscard]] std::vector<Candidate> candidates(const std::vector<Contender>& contenders) const {
        std::vector<Candidate> all;
        for (const Contender& one : contenders)
            all.push_back({one.level, noise_of(one.built, targets, line, lever(one.built, line.middle))});
        return all;
    }

    /// The contender that sets the value; of equal ones the one with the widest law, so that order does not matter.
    [[nodiscard]] const BuiltOf& setter(const std::vector<Contender>& contenders, const std::vector<Candidate>& candidates) const {
        const auto rank = [&](std::size_t i) {
            return std::tuple(candidates[i].level, candidates[i].noise.variance, -targets[contenders[i].built.target].degrees_of_freedom);
        };
        std::size_t first = 0;
        for (std::size_t i = 1; i < candidates.size(); ++i)
            if (rank(i) > rank(first)) first = i;
        return contenders[first].built;
    }
};

ScatterBias bias_of(const Noise& noise, const Contenders& all, MaximumNoise& maximum) {
    // Measured means are spread by noise already: gaps up to three standard uncertainties count as none. By simulation: 2.5 loses a
    // point of coverage on a flat axis, 3.5 gains half a point. Student's t widens the three as it widens 1.96.
    constexpr double closing = 3, normal = 1.959964, coverage = 0.95;
    const std::vector<Candidate> high = noise.candidates(all.high), low = noise.candidates(all.low);
    const BuiltOf& top = noise.setter(all.high, high);
    const BuiltOf* bottom = low.empty() ? nullptr : &noise.setter(all.low, low);
    ScatterBias bias;
    bias.degrees_of_freedom = noise.targets[top.target].degrees_of_freedom;
    if (bottom) bias.degrees_of_freedom = std::max(bias.degrees_of_freedom, noise.targets[bottom->target].degrees_of_freedom);
    const double closed = closing * coverage_factor(bias.degrees_of_freedom, coverage) / normal;
    bias.added = maximum.of(high, closed);
    // Independent: exact where the two sets are apart, on the safe side where one noise acts on both.
    if (bottom) bias.added += maximum.of(low, closed);
    const double apart = bottom ? noise.lever(top, along(noise.series.targets[bottom->target])) : 0;
    bias.at_setters = noise_of(top, noise.targets, noise.line, apart);
    if (bottom) bias.at_setters += noise_of(*bottom, noise.targets, noise.line, -apart);
    // The slope itself enters the difference once, not once with each end.
    if (bottom) bias.at_setters.variance -= apart * apart * noise.line.variance_of_slope;
    return bias;
}

}  // namespace

void add_scatter_bias(SeriesEvaluation& series, double drift) {
    if (series.source != Source::Runs || series.kind == SeriesKind::AngleSteps) return;
    const auto noise = target_noise(series.targets, drift);
    MaximumNoise maximum;
    for (Parameter& parameter : series.parameters) {
        const Contenders all = value_of(parameter.value) ? contenders(series, parameter) : Contenders{};
        if (all.high.empty()) continue;
        if (const auto* known = value_of(noise))
            parameter.scatter_bias = bias_of({*known, line_noise(series, parameter, *known), series}, all, maximum);
        else
            parameter.scatter_bias = std::get<NotEvaluated>(noise);
    }
}

void add_scatter_bias(const document::Document& document, std::span<SeriesEvaluation> series) {
    for (SeriesEvaluation& one : series) {
        const auto drift = drift_of(document, one);
        add_scatter_bias(one, drift ? drift->standard : 0);
    }
}

double below(const ScatterBias& bias, double systematic, double z) {
    return upper_end(bias.added, systematic, bias.degrees_of_freedom, z);
}

double above(const ScatterBias& bias, double systematic, double z) {
    const Cumulants turned{-bias.at_setters.mean, bias.at_setters.variance, -bias.at_setters.third};
    return upper_end(turned, systematic, bias.degrees_of_freedom, z);
}

}  // namespace wayfolio::evaluate
