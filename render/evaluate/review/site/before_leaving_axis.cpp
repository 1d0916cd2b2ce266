#include "evaluate/review/hints.hpp"
#include "evaluate/review/site/judged_series.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// Reversals of both signs, each beyond the scatter. Whether it was told.
bool add_reversal_sign(const JudgedSeries& j, const SeriesHints& hints) {
    const auto spread = pooled_spread(j.evaluated);
    if (!spread || value_of(hints.closure) == nullptr) return false;
    const TargetEvaluation *low = nullptr, *high = nullptr;
    double targets = 0;
    for (const auto& target : j.evaluated.targets) {
        if (!target.reversal) continue;
        targets += 1;
        if (!low || *target.reversal < *low->reversal) low = &target;
        if (!high || *target.reversal > *high->reversal) high = &target;
    }
    if (!low) return false;
    const auto p = [&](const TargetEvaluation& target) {
        const double standard = spread->s * std::sqrt(1.0 / static_cast<double>(target.one_way.positive.n) +
                                                      1.0 / static_cast<double>(target.one_way.negative.n));
        const double t = std::abs(in_base_unit(*target.reversal)) / standard;
        return std::min(1.0, 2 * targets * boost::math::cdf(boost::math::complement(boost::math::students_t(spread->nu), t)));
    };
    if (!(in_base_unit(*low->reversal) < 0 && in_base_unit(*high->reversal) > 0)) return false;
    const double larger = std::max(p(*low), p(*high));
    if (larger >= hints.level) return false;
    j.add(FindingCode::ReversalChangesSign,
          fmt::format("the reversal changes its sign along the axis, from {:+.3g} to {:+.3g} {}", low->reversal->in(j.evaluated.unit),
                      high->reversal->in(j.evaluated.unit), j.unit()),
          j.series(), test_words("t test at both targets", larger, hints.level),
          "nothing, where the drive winds up or wears so; else look for a wrong approach in some runs");
    return true;
}

void add_reversal_ends(const JudgedSeries& j, const SeriesHints& hints) {
    const auto* closure = value_of(hints.closure);
    if (!closure || !closure->raised) return;
    j.add(FindingCode::ReversalChangesAlongAxis,
          fmt::format("the reversal changes along the axis: it differs by {:+.3g} {} between the ends of the travel",
                      j.own(closure->difference), j.unit()),
          j.series(), test_words("t test", closure->p, hints.level),
          "nothing, where the axis is known to have it; else read the first target again (same value: the axis; other value: the set-up "
          "moved)");
}

void add_wave(const JudgedSeries& j, const SeriesHints& hints) {
    const auto* periodic = value_of(hints.periodic);
    if (!periodic || !periodic->raised) return;
    j.add(FindingCode::PeriodicError,
          fmt::format("a periodic error of about {:.3g} {} shows, period {:.4g} {}", j.own(periodic->amplitude), j.unit(), periodic->period,
                      j.evaluated.error.axis_is_rotary() ? "deg" : "mm"),
          j.series(), test_words("spectrum, bound of the band", periodic->p, hints.level),
          "where its period matters, measure a short stretch with dense targets while the instrument stands");
}

}  // namespace

void add_axis_properties(const JudgedSeries& j, const SeriesHints& hints) {
    if (!add_reversal_sign(j, hints)) add_reversal_ends(j, hints);
    add_wave(j, hints);
}

}  // namespace wayfolio::evaluate
