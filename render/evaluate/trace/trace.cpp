#include "evaluate/trace/trace.hpp"

#include "evaluate/numbers/trace/outline.hpp"
#include "evaluate/numbers/trace/way_sums.hpp"
#include "evaluate/series/straightness.hpp"
#include "evaluate/trace/beside.hpp"
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
    TraceWalk(const document::Document& document, const document::Series& series, const SeriesEvaluation& evaluated, std::size_t threads)
        : series_(series), evaluated_(evaluated), targets_(series),
          beside_(threads > 1 && series.trace->many, [this](const Points& points) { go_along(points); }) {
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

    void add(std::span<const document::TraceSample> samples) {
        constexpr std::size_t at_a_time = 4096;  // by choice: they stay in a processor's own memory
        while (!samples.empty()) {
            const auto some = samples.first(std::min(at_a_time - points_.size(), samples.size()));
            take_points(some);
            if (points_.size() == at_a_time) go_on();
            samples = samples.subspan(some.size());
        }
    }
    void finish() {
        go_on();
        beside_.finish();
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

    using Points = std::vector<TracePoint>;

    void take_points(std::span<const document::TraceSample> samples) {
        const bool in_air = evaluated_.air_correction.has_value();
        const units::Deviation no_air(0, series_.unit);
        const std::size_t held = points_.size();
        points_.resize(held + samples.size());
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const auto& [position, value] = samples[i];
            const units::Deviation air = in_air ? evaluated_.air_at(position) : no_air;
            points_[held + i] = {extremes_.count + held + i, plain_place(position), plain_value(value + air)};
        }
    }
    void go_on() {
        Points& points = beside_.next();
        points.swap(points_);
        points_.clear();
        beside_.give();
        look_at(points);
    }
    /// What needs the samples alone. Each part goes through some by itself, which is quicker than all parts at each sample.
    void look_at(const Points& points) {
        for (const TracePoint& point : points) extremes_.add(point);
        if (outline_)
            for (const TracePoint& point : points) outline_->add(point);
        if (lines_) lines_->add(points);
    }
    /// What needs the way between them, on the other thread: nothing of it is touched by look_at().
    void go_along(const Points& points) {
        take_stretches(points);
        for (const Stretch& stretch : stretches_) targets_.add(stretch);
        if (lines_) lines_->add(stretches_);
        if (period_)
            for (const Stretch& stretch : stretches_) period_->add(stretch);
        if (filtered_)
            for (const Stretch& stretch : stretches_) filtered_->add(stretch);
    }
    void take_stretches(const Points& points) {
        stretches_.resize(points.size());
        std::size_t count = 0;
        for (const TracePoint& point : points) {
            Stretch& stretch = stretches_[count];
            if (!passes_.next(point.x, point.y, stretch)) continue;
            if (stretch.begins_pass) ++counts_[stretch.approach];
            ++count;
        }
        stretches_.resize(count);
    }

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
    const SeriesEvaluation& evaluated_;
    Points points_;  ///< that wait
    TraceExtremes extremes_;
    std::optional<TraceOutline> outline_;
    std::optional<TraceLines> lines_;  ///< its samples are of one thread, its stretches of the other

    std::vector<Stretch> stretches_;  ///< from here on of the other thread until it has finished
    Passes passes_{turn_mm_or_deg};
    ByApproach<std::size_t> counts_{};
    PassedTargets targets_;
    std::optional<WayPeriod> period_;
    std::optional<FilteredTrace> filtered_;

    Beside<Points> beside_;
};

}  // namespace

std::optional<TraceEvaluation> evaluate_trace(const document::Document& document, const document::Series& series,
                                              const SeriesEvaluation& evaluated, std::size_t threads) {
    if (!series.trace || series.trace->count() == 0 || series.steps_base_mm) return std::nullopt;
    TraceWalk walk(document, series, evaluated, threads);
    series.trace->walk([&](std::span<const document::TraceSample> samples) { walk.add(samples); });
    walk.finish();
    return walk.evaluation();
}

}  // namespace wayfolio::evaluate
