#include "evaluate/trace/trace.hpp"

#include "evaluate/numbers/trace/outline.hpp"
#include "evaluate/numbers/trace/way_sums.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/trace/filtered_trace.hpp"
#include "evaluate/trace/passed_targets.hpp"
#include "evaluate/trace/plain_numbers.hpp"
#include "evaluate/trace/trace_lines.hpp"
#include "units/number_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

/// A position that goes back by more ends a pass: more than an axis at rest trembles, less than any way that is measured. By choice.
constexpr double turn_mm_or_deg = 0.01;
/// Fewer samples a pass, on average, are no record on the fly, or do not stand in the order of time. By choice.
constexpr std::size_t fewest_a_pass = 10;

bool is_straightness(const document::Series& series) { return series.error.kind() == document::ErrorKind::Straightness; }

/// Lengths of windows for local straightness; nothing for an error that has no reference line.
std::optional<std::vector<double>> windows_of(const document::Document& document, const document::Series& series) {
    if (!is_straightness(series) || series.error.axis_is_rotary()) return std::nullopt;
    const document::Trace& trace = *series.trace;
    if (trace.many) return local_lengths(document, series, plain_place(trace.many->high) - plain_place(trace.many->low));
    const auto place = [](const document::TraceSample& sample) { return plain_place(sample.position); };
    const auto [low, high] = std::ranges::minmax_element(trace.samples, {}, place);
    return local_lengths(document, series, place(*high) - place(*low));
}

/// All that is held while a trace is walked through.
class TraceWalk {
public:
    TraceWalk(const document::Document& document, const document::Series& series, const SeriesEvaluation& evaluated)
        : series_(series), targets_(series) {
        if (const auto& many = series.trace->many) {
            const ReferenceLineResult* const about = headline_line(evaluated);
            const bool linear = series.position_unit.dimension == units::Dimension::Length;
            const double slope = about != nullptr && linear ? about->slope.in(units::micrometre_per_metre) / 1e3 : 0;  // um for a mm
            outline_.emplace(plain_place(many->low), plain_place(many->high), slope);
        }
        if (series.trace->pitch) period_.emplace(*series.trace->pitch * series.position_unit.in_natural);
        const auto windows = windows_of(document, series);
        if (windows) lines_.emplace(series, TraceLines::Of::Samples, *windows);
        if (series.trace->cutoff) filtered_.emplace(series, windows);
    }

    void add(double x, double y) {
        const TracePoint point{extremes_.count, x, y};
        extremes_.add(point);
        if (lines_) lines_->add(point);
        if (outline_) outline_->add(point);
        const auto stretch = passes_.next(x, y);
        if (!stretch) return;
        if (stretch->begins_pass) ++counts_[stretch->approach];
        targets_.add(*stretch);
        if (lines_) lines_->add(*stretch);
        if (period_) period_->add(*stretch);
        if (filtered_) filtered_->add(*stretch);
    }

    [[nodiscard]] TraceEvaluation evaluation() const {
        const auto no_order = no_way();
        const auto no_passes = no_order ? no_order : against_approach();
        TraceEvaluation found{.samples = extremes_.count,
                              .highest = place(extremes_.highest),
                              .lowest = place(extremes_.lowest),
                              .passes = counts_,
                              .reversal = NotEvaluated{"no target was passed in both directions"},
                              .repeatability = {no_repeatability(Approach::Positive), no_repeatability(Approach::Negative)}};
        if (no_passes) {
            found.passes = *no_passes;
            found.reversal = *no_passes;
            found.repeatability = {*no_passes, *no_passes};
        } else {
            add_targets(found);
        }
        if (outline_) {
            const std::vector<TracePoint> points = outline_->points();
            found.outline.reserve(points.size());
            for (const TracePoint& point : points)
                found.outline.push_back({plain_position(series_, point.x), plain_deviation(series_, point.y)});
        }
        if (is_straightness(series_)) found.lines = lines(no_order);
        if (lines_ && !no_order) found.local = lines_->local();
        if (filtered_) {
            found.cutoff = series_.trace->cutoff;
            if (no_order) found.filtered = *no_order;
            else found.filtered = filtered_->evaluation();
        }
        if (period_) {
            found.pitch = series_.trace->pitch;
            found.periodic = periodic(no_order);
        }
        return found;
    }

private:
    using Obstacle = std::optional<NotEvaluated>;

    [[nodiscard]] TracePlace place(const TracePoint& point) const {
        return {point.sample, plain_position(series_, point.x), plain_deviation(series_, point.y)};
    }
    [[nodiscard]] std::size_t passes() const { return counts_.positive + counts_.negative; }

    [[nodiscard]] Obstacle no_way() const {
        if (extremes_.count == 1) return NotEvaluated{"one sample: the axis did not move"};
        if (passes() == 0)
            return NotEvaluated{fmt::format("the axis did not move by more than {} {}", units::shortest(turn_mm_or_deg),
                                            plain_unit_of_places(series_.position_unit.dimension).spelling)};
        if (extremes_.count < fewest_a_pass * passes())
            return NotEvaluated{fmt::format(
                "the position turns {} times in {} samples: a record on the fly has at least {} samples a pass, in the order of time",
                passes() - 1, extremes_.count, fewest_a_pass)};
        return std::nullopt;
    }

    [[nodiscard]] Obstacle against_approach() const {
        const auto stated = series_.trace->approach;
        if (!stated) return std::nullopt;
        const Approach other = *stated == Approach::Positive ? Approach::Negative : Approach::Positive;
        if (counts_[other] == 0) return std::nullopt;
        return NotEvaluated{fmt::format("the trace is said to be {}, and {} of its {} passes go the other way", document::word(*stated),
                                        counts_[other], passes())};
    }

    [[nodiscard]] static NotEvaluated no_repeatability(Approach approach) {
        return {fmt::format("no target was passed twice in {} direction", document::word(approach))};
    }

    void add_targets(TraceEvaluation& found) const {
        found.targets = targets_.targets();
        const auto take = [](Evaluated<TraceLargest>& largest, const Deviation& value, const Position& position) {
            const auto* const so_far = value_of(largest);
            if (so_far == nullptr || abs(value) > abs(so_far->value)) largest = TraceLargest{value, position};
        };
        for (const TraceTarget& target : found.targets) {
            if (target.reversal) take(found.reversal, *target.reversal, target.position);
            for (const Approach approach : {Approach::Positive, Approach::Negative})
                if (const auto& s = target.one_way[approach].s) take(found.repeatability[approach], *s * 4, target.position);
        }
    }

    [[nodiscard]] Evaluated<std::vector<TraceLine>> lines(const Obstacle& no_order) const {
        if (series_.error.axis_is_rotary()) return NotEvaluated{"no reference straight line is defined for a rotary axis"};
        if (no_order) return *no_order;
        return lines_->lines();
    }

    [[nodiscard]] Evaluated<TracePeriod> periodic(const Obstacle& no_order) const {
        if (no_order) return *no_order;
        const double pitch = *series_.trace->pitch * series_.position_unit.in_natural;
        constexpr double most_of_a_period = 0.25;
        if (period_->longest_stretch() > most_of_a_period * pitch)
            return NotEvaluated{fmt::format("samples are up to {} {} apart: each period needs four at least",
                                            units::shortest(period_->longest_stretch() / series_.position_unit.in_natural),
                                            series_.position_unit.spelling)};
        const auto fit = period_->fit();
        if (!fit) return NotEvaluated{"the way has fewer than three periods"};
        return TracePeriod{plain_deviation(series_, fit->amplitude), fit->share};
    }

    const document::Series& series_;
    TraceExtremes extremes_;
    Passes passes_{turn_mm_or_deg};
    ByApproach<std::size_t> counts_{};
    PassedTargets targets_;
    std::optional<TraceLines> lines_;
    std::optional<WayPeriod> period_;
    std::optional<FilteredTrace> filtered_;
    std::optional<TraceOutline> outline_;
};

}  // namespace

std::optional<TraceEvaluation> evaluate_trace(const document::Document& document, const document::Series& series,
                                              const SeriesEvaluation& evaluated) {
    if (!series.trace || series.trace->count() == 0 || series.steps_base_mm) return std::nullopt;
    TraceWalk walk(document, series, evaluated);
    series.trace->walk([&](std::span<const document::TraceSample> samples) {
        for (const document::TraceSample& sample : samples)
            walk.add(plain_place(sample.position), in_base_unit(sample.value + evaluated.air_at(sample.position)));
    });
    return walk.evaluation();
}

}  // namespace wayfolio::evaluate
