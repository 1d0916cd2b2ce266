#include "evaluate/review/hints.hpp"

#include "evaluate/numbers/outliers.hpp"
#include "evaluate/numbers/periodic.hpp"
#include "evaluate/series/targets.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

std::optional<PooledSpread> pooled_spread(const SeriesEvaluation& series) {
    double squares = 0, nu = 0;
    const auto add = [&](const std::optional<Deviation>& s, std::size_t n) {
        if (!s || n < 2) return;
        const double value = s->in(base_unit(s->dimension())), freedom = static_cast<double>(n - 1);
        squares += freedom * value * value;
        nu += freedom;
    };
    for (const auto& target : series.targets) {
        for (const Approach approach : document::both_approaches) add(target.one_way[approach].s, target.one_way[approach].n);
    }
    if (nu < 1 || !(squares > 0)) return std::nullopt;
    return PooledSpread{std::sqrt(squares / nu), nu};
}

Evaluated<ClosureHint> closure_hint(const SeriesEvaluation& series) {
    if (series.targets.size() < 2) return NotEvaluated{"too few targets"};
    const TargetEvaluation &first = series.targets.front(), &last = series.targets.back();
    const auto spread = pooled_spread(series);
    if (!first.reversal || !last.reversal || !spread)
        return NotEvaluated{"the ends of the travel lack a direction, or the readings do not scatter"};
    const auto unit = base_unit(first.reversal->dimension());
    double inverse = 0;
    for (const std::size_t n : {first.one_way.positive.n, first.one_way.negative.n, last.one_way.positive.n, last.one_way.negative.n})
        inverse += 1 / static_cast<double>(n);
    ClosureHint hint{(*first.reversal - *last.reversal).in(unit), 0, 1};
    hint.t = hint.difference / (spread->s * std::sqrt(inverse));
    hint.p = 2 * boost::math::cdf(boost::math::complement(boost::math::students_t(spread->nu), std::abs(hint.t)));
    return hint;
}

Evaluated<PeriodicHint> periodic_hint(const SeriesEvaluation& series) {
    std::vector<double> x, y;
    for (const auto& target : series.targets) {
        const auto& value = target.trace_mean();
        if (!value) continue;
        x.push_back(target.position.in(natural_unit(target.position.dimension())));
        y.push_back(value->in(base_unit(value->dimension())));
    }
    constexpr std::size_t fewest = 8;  // below that, three whole waves need a shorter period than two intervals
    if (x.size() < fewest) return NotEvaluated{"fewer than eight targets resolve no period"};
    const double length = x.back() - x.front(), interval = length / static_cast<double>(x.size() - 1);
    // A wave that passes fewer than three times over the travel is its shape, not a period.
    const auto peak = periodic_peak(x, y, 3 / length, 1 / (2 * interval));
    if (!peak) return NotEvaluated{"the means lie on a straight line, or no frequency can be told apart at these targets"};
    PeriodicHint hint{1 / peak->fit.frequency, peak->fit.amplitude, peak->p_band, {}, 2 * interval};
    for (const double alias : {1 / interval - peak->fit.frequency, 1 / interval + peak->fit.frequency})
        hint.aliases.push_back(1 / alias);
    return hint;
}

namespace {

SeriesHints hints_of(const document::Series& series, const SeriesEvaluation& evaluated) {
    const auto runs = run_residuals(series, evaluated);
    const bool timed = has_times(series);
    if (runs.empty()) {
        const NotEvaluated none{"there are no runs of single readings"};
        return {evaluated.id, family_level, none, none, none, none, none, none};
    }
    SeriesHints hints{evaluated.id,
                      family_level,
                      drift_over_runs(runs, timed),
                      NotEvaluated{"a rotary axis does not grow along its travel"},
                      run_apart(runs),
                      outlier_hint(runs),
                      periodic_hint(evaluated),
                      closure_hint(evaluated)};
    if (!series.error.axis_is_rotary()) hints.growth = growth_over_runs(runs, timed);
    return hints;
}

/// Calls `act` with each test that could be made.
template <class Act>
void for_each_test(SeriesHints& hints, Act&& act) {
    const auto visit = [&](auto& evaluated) {
        if (auto* hint = std::get_if<0>(&evaluated)) act(*hint);
    };
    visit(hints.drift);
    visit(hints.growth);
    visit(hints.apart);
    visit(hints.outlier);
    visit(hints.periodic);
    visit(hints.closure);
}

}  // namespace

std::vector<SeriesHints> evaluate_hints(const document::Document& document, const std::vector<SeriesEvaluation>& series) {
    std::vector<SeriesHints> all;
    if (!document.evaluation.hints.value_or(true)) return all;
    double tests = 0;
    for (std::size_t i = 0; i < series.size() && i < document.series.size(); ++i) {
        all.push_back(hints_of(document.series[i], series[i]));
        for_each_test(all.back(), [&](const auto&) { tests += 1; });
    }
    for (SeriesHints& hints : all) {
        hints.level = family_level / std::max(1.0, tests);
        for_each_test(hints, [&](auto& hint) { hint.raised = hint.p < hints.level; });
        if (auto* outlier = std::get_if<OutlierHint>(&hints.outlier))
            outlier->critical = critical_T(outlier->readings, outlier->nu, hints.level);
    }
    return all;
}

}  // namespace wayfolio::evaluate
