#include "evaluate/uncertainty/scatter/target_noise.hpp"

#include "evaluate/uncertainty/scatter/extreme_noise.hpp"
#include "evaluate/series/mean_trace.hpp"
#include "evaluate/series/targets.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

namespace {

using document::both_approaches;

struct Pool {
    double squares = 0, degrees_of_freedom = 0;

    void take(const TargetEvaluation& target) {
        for (const Approach approach : both_approaches) {
            const auto& [n, mean, s, R] = target.one_way[approach];
            if (!s || n < 2) continue;
            const auto nu = static_cast<double>(n) - 1;
            squares += nu * std::pow(s->in(base_unit(s->dimension())), 2);
            degrees_of_freedom += nu;
        }
    }
};

/// The targets from `at` - reach to `at` + reach that there are, for the least reach that is enough.
Pool pooled_about(Targets targets, std::size_t at) {
    constexpr double enough = 20;
    for (std::size_t reach = 0;; ++reach) {
        const std::size_t first = at < reach ? 0 : at - reach, last = std::min(at + reach, targets.size() - 1);
        Pool pool;
        for (std::size_t i = first; i <= last; ++i) pool.take(targets[i]);
        // Where all readings near by are equal, the resolution hides the scatter: farther ones show it.
        if (pool.degrees_of_freedom >= enough && pool.squares > 0) return pool;
        if (first == 0 && last == targets.size() - 1) return pool;
    }
}

/// relative_error_of_s() of so many readings. Nearly all targets have as many as the one before.
class ErrorOfS {
public:
    const Cumulants& of(std::size_t n) {
        if (n != n_) law_ = relative_error_of_s(static_cast<double>(n) - 1), n_ = n;
        return law_;
    }

private:
    std::size_t n_ = 0;
    Cumulants law_{};
};

TargetNoise noise_at(const TargetEvaluation& target, const Pool& pool, double drift, ErrorOfS& error_of_s) {
    TargetNoise noise{.standard = std::sqrt(pool.squares / pool.degrees_of_freedom), .degrees_of_freedom = pool.degrees_of_freedom};
    for (const Approach approach : both_approaches) {
        const OneWay& one_way = target.one_way[approach];
        const auto n = static_cast<double>(one_way.n);
        if (one_way.mean && one_way.n > 0) noise.variance_of_mean[approach] = (noise.standard * noise.standard + drift * drift) / n;
        if (one_way.s && one_way.n > 1) noise.error_of_s[approach] = error_of_s.of(one_way.n);
    }
    return noise;
}

/// BuiltOf of the trace's means in the slope of the line.
std::vector<double> slope_weights(document::ReferenceLine kind, const std::vector<double>& x) {
    std::vector<double> weights(x.size(), 0);
    if (kind == document::ReferenceLine::EndPoint) {
        weights.back() = 1 / (x.back() - x.front());
        weights.front() = -weights.back();
    } else if (kind == document::ReferenceLine::LeastSquares) {
        double centre = 0, squares = 0;
        for (const double place : x) centre += place / static_cast<double>(x.size());
        for (const double place : x) squares += (place - centre) * (place - centre);
        for (std::size_t i = 0; i < x.size(); ++i) weights[i] = (x[i] - centre) / squares;
    }
    return weights;
}

}  // namespace

Evaluated<std::vector<TargetNoise>> target_noise(Targets targets, double drift) {
    Pool all;
    for (const TargetEvaluation& target : targets) all.take(target);
    if (!(all.degrees_of_freedom > 0))
        return NotEvaluated{
            "one run in each approach: the standard deviation of the readings is not known, nor what it adds to this value"};
    if (!(all.squares > 0)) return NotEvaluated{"all readings at every target are equal: their standard deviation is not known"};
    std::vector<TargetNoise> noise;
    ErrorOfS error_of_s;
    for (std::size_t i = 0; i < targets.size(); ++i) noise.push_back(noise_at(targets[i], pooled_about(targets, i), drift, error_of_s));
    return noise;
}

LineNoise line_noise(const SeriesEvaluation& series, const Parameter& parameter, const std::vector<TargetNoise>& noise) {
    if (!parameter.reference_line || *parameter.reference_line == document::ReferenceLine::MinimumZone) return {};
    const MeanTrace trace = mean_trace(series);
    if (trace.x.size() < 3) return {};
    const std::vector<double> weights = slope_weights(*parameter.reference_line, trace.x);
    LineNoise line{.slope = std::vector<document::ByApproach<double>>(noise.size()), .middle = (trace.x.front() + trace.x.back()) / 2};
    for (std::size_t i = 0; i < weights.size(); ++i)
        for (const Approach approach : both_approaches) {
            const double share = !trace.one_way ? 0.5 : *trace.one_way == approach ? 1 : 0;
            const double weight = share * weights[i];
            line.slope[trace.target[i]][approach] = weight;
            line.variance_of_slope += weight * weight * noise[trace.target[i]].variance_of_mean[approach];
        }
    return line;
}

Cumulants noise_of(const BuiltOf& built, const std::vector<TargetNoise>& noise, const LineNoise& line, double lever) {
    const TargetNoise& here = noise[built.target];
    Cumulants law{.variance = lever * lever * line.variance_of_slope};
    for (const Approach approach : both_approaches) {
        const double of_mean = built.of_mean[approach], of_s = built.of_s[approach] * here.standard;
        const double in_slope = line.slope.empty() ? 0 : line.slope[built.target][approach];
        law.variance += of_mean * (of_mean - 2 * lever * in_slope) * here.variance_of_mean[approach];
        const Cumulants& s = here.error_of_s[approach];
        law += {of_s * s.mean, of_s * of_s * s.variance, of_s * of_s * of_s * s.third};
    }
    return law;
}

}  // namespace wayfolio::evaluate
