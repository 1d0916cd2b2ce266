#include "evaluate/series/mean_trace.hpp"

#include "evaluate/series/obstacles.hpp"
#include "evaluate/series/targets.hpp"

namespace wayfolio::evaluate {

namespace {

/// The only direction that was read; nothing where both or none were.
std::optional<Approach> only_direction(const SeriesEvaluation& series) {
    const bool positive = !no_means(series.targets, Approach::Positive), negative = !no_means(series.targets, Approach::Negative);
    if (positive == negative) return std::nullopt;
    return positive ? Approach::Positive : Approach::Negative;
}

}  // namespace

MeanTrace mean_trace(const SeriesEvaluation& series) {
    MeanTrace trace;
    if (series.kind != SeriesKind::AngleSteps) trace.one_way = only_direction(series);
    for (std::size_t i = 0; i < series.targets.size(); ++i) {
        const TargetEvaluation& target = series.targets[i];
        const auto& value = target.mean_of(trace.one_way);
        if (!value) continue;
        trace.x.push_back(target.position.in(natural_unit(target.position.dimension())));
        trace.y.push_back(value->in(base_unit(value->dimension())));
        trace.target.push_back(i);
    }
    return trace;
}

}  // namespace wayfolio::evaluate
