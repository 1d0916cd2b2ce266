#include "evaluate/review/hints.hpp"

#include "evaluate/numbers/outliers.hpp"
#include "evaluate/numbers/spectrum/periodic.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "evaluate/review/readings/fault_tests.hpp"
#include "evaluate/review/readings/misread.hpp"
#include "evaluate/series/targets.hpp"
#include "input/share_out.hpp"

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
        return NotEvaluated{"one approach is missing at the ends of the travel, or the readings do not vary"};
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
    // The bow and the bend of a way are no wave; few targets leave room for a straight line only.
    constexpr std::size_t enough_for_bends = 12;
    const auto peak = periodic_peak(x, y, 3 / length, 1 / (2 * interval), x.size() < enough_for_bends ? 1 : 3);
    if (!peak) return NotEvaluated{"the means lie on a straight line, or no frequency can be told apart at these targets"};
    PeriodicHint hint{1 / peak->fit.frequency, peak->fit.amplitude, peak->p_band, {}, 1 / peak->highest};
    for (const double alias : {1 / interval - peak->fit.frequency, 1 / interval + peak->fit.frequency})
        hint.aliases.push_back(1 / alias);
    return hint;
}

namespace {

/// The tests that look for a fault in single runs and readings.
struct FaultTests {
    Tried<RunTrend> drift, growth;
    Tried<RunApart> apart;
    Tried<RunJump> jump;
    Tried<OutlierHint> outlier;
    Tried<ReadingsSwapped> swapped;
    Tried<MissedCount> missed_count;
};

/// A series with what is left of its readings as faults are found and taken out.
struct SeriesUnderTest {
    const document::Series& series;
    SeriesHints hints;
    Runs runs;
    FaultTests tests{};  ///< of these runs
};

FaultTests try_all(const SeriesUnderTest& tested) {
    const bool timed = has_times(tested.series);
    const auto within = within_runs(tested.runs);
    FaultTests tests{.drift = try_drift(tested.runs, timed),
                     .growth = {.hint = NotEvaluated{"a rotary axis does not grow along its travel"}},
                     .apart = try_apart(tested.runs),
                     .jump = try_jump(tested.runs),
                     .outlier = try_outlier(tested.runs, within),
                     .swapped = try_swapped(tested.runs, within),
                     .missed_count = try_missed_count(tested.runs, within)};
    if (!tested.series.error.axis_is_rotary()) tests.growth = try_growth(tested.runs, timed);
    return tests;
}

/// Calls `act` with each test and its place among the hints.
template <class Act>
void for_each_fault(SeriesHints& hints, FaultTests& tests, Act&& act) {
    act(hints.drift, tests.drift);
    act(hints.growth, tests.growth);
    act(hints.apart, tests.apart);
    act(hints.jump, tests.jump);
    act(hints.outlier, tests.outlier);
    act(hints.swapped, tests.swapped);
    act(hints.missed_count, tests.missed_count);
}

double level_of(const SeriesHints& hints, const auto&) { return hints.level; }
double level_of(const SeriesHints&, const OutlierHint& hint) { return hint.level; }

/// Keeps what the tests say now, but for faults already told.
void note(SeriesHints& hints, FaultTests& tests) {
    for_each_fault(hints, tests, [&](auto& told, auto& tried) {
        auto *before = std::get_if<0>(&told), *now = std::get_if<0>(&tried.hint);
        if constexpr (requires { now->critical; }) {
            if (before && now) now->level = before->level, now->critical = critical_T(now->readings, now->nu, now->level);
        }
        if (now && !(before && before->raised)) told = *now;
    });
}

double sum_of_squares(const Runs& runs) {
    double squares = 0;
    for (const auto& run : runs) squares += dot(run.residuals, run.residuals);
    return squares;
}

/// How well a fault explains the readings: the logarithm of the likelihood ratio, twice, less what the best of so many places gains by
/// chance.
template <class Hint>
double gain(const Tried<Hint>& tried, double total, double readings) {
    const double left = std::max(1 - tried.squares / total, 1e-15);
    return -readings * std::log(left) - 2 * std::log(tried.choices);
}

/// The count that may be missing where a run stands apart, or where the runs jump.
template <class Hint>
std::optional<Tried<MissedCount>> missed_instead(const SeriesUnderTest& tested, const Tried<Hint>& tried) {
    const auto* hint = value_of(tried.hint);
    if (!hint || hint->p >= tested.hints.level) return std::nullopt;
    return count_missed_for_good(tested.runs, {hint->run, tried.squares, hint->t, hint->p});
}

/// The likeliest of the faults that stand out is told and taken out, and so on with the rest.
void explain(SeriesUnderTest& tested) {
    constexpr int most_faults = 8;
    for (int fault = 0; fault < most_faults && !tested.runs.empty(); ++fault) {
        if (fault > 0) tested.tests = try_all(tested);
        FaultTests& tests = tested.tests;
        note(tested.hints, tests);
        const double total = sum_of_squares(tested.runs);
        double readings = 0, most = 0;
        for (const auto& run : tested.runs) readings += static_cast<double>(run.readings.size());
        std::function<void()> tell;
        const auto weigh = [&](auto& told, auto& tried) {
            const auto* hint = value_of(tried.hint);
            if (!hint || hint->p >= level_of(tested.hints, *hint) || (tell && gain(tried, total, readings) <= most)) return;
            most = gain(tried, total, readings);
            tell = [&told, &tried, &tested] {
                auto* before = std::get_if<0>(&told);
                if (!before || !before->raised) {
                    told = tried.hint;
                    std::get<0>(told).raised = true;
                }
                tried.take_out(tested.runs);
            };
        };
        for_each_fault(tested.hints, tests, weigh);
        auto after_jump = missed_instead(tested, tests.jump), after_apart = missed_instead(tested, tests.apart);
        for (auto* missed : {&after_jump, &after_apart})
            if (*missed) weigh(tested.hints.missed_count, **missed);
        if (!tell) return;
        tell();
    }
}

SeriesUnderTest first_look(const document::Series& series, const SeriesEvaluation& evaluated) {
    MisreadRuns misread = misread_runs(series, evaluated);
    const NotEvaluated none{"there are no runs of single readings"};
    SeriesHints hints{evaluated.id, 0, none, none, none, none, none, none, none, none, none, std::move(misread.left_out)};
    SeriesUnderTest tested{series, std::move(hints), std::move(misread.rest)};
    if (tested.runs.empty()) return tested;
    tested.tests = try_all(tested);
    for_each_fault(tested.hints, tested.tests, [](auto& told, auto& tried) { told = tried.hint; });
    tested.hints.periodic = periodic_hint(evaluated);
    tested.hints.closure = closure_hint(evaluated);
    return tested;
}

}  // namespace

std::vector<SeriesHints> evaluate_hints(const document::Document& document, const std::vector<SeriesEvaluation>& series,
                                        std::size_t processors) {
    std::vector<SeriesHints> all;
    if (!document.evaluation.hints.value_or(true)) return all;
    std::vector<std::optional<SeriesUnderTest>> looked_at(std::min(series.size(), document.series.size()));
    input::share_out(looked_at.size(), processors, [&](std::size_t i) { looked_at[i].emplace(first_look(document.series[i], series[i])); });
    double single = 0, others = 0;
    const auto count = [](const auto& hint) { return value_of(hint) ? 1.0 : 0.0; };
    for (const auto& one : looked_at) {
        const SeriesHints& hints = one->hints;
        single += count(hints.outlier);
        others += count(hints.drift) + count(hints.growth) + count(hints.apart) + count(hints.jump) + count(hints.swapped) +
                  count(hints.missed_count) + count(hints.periodic);
    }
    for (auto& one : looked_at) {
        SeriesHints& hints = one->hints;
        hints.level = family_level * (1 - single_reading_part) / std::max(1.0, others);
        if (auto* outlier = std::get_if<0>(&hints.outlier)) outlier->level = family_level * single_reading_part / single;
        explain(*one);
        if (auto* periodic = std::get_if<0>(&hints.periodic)) periodic->raised = periodic->p < hints.level;
        if (auto* closure = std::get_if<0>(&hints.closure)) closure->raised = closure->p < hints.level;
        all.push_back(std::move(hints));
    }
    return all;
}

}  // namespace wayfolio::evaluate
