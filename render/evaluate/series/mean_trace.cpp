#include "evaluate/series/mean_trace.hpp"

#include "evaluate/numbers/reference_lines.hpp"
#include "evaluate/series/obstacles.hpp"
#include "evaluate/series/targets.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

namespace {

/// The only direction that was read; nothing where both or none were.
std::optional<Approach> only_direction(const SeriesEvaluation& series) {
    const bool positive = !no_means(series.targets, Approach::Positive), negative = !no_means(series.targets, Approach::Negative);
    if (positive == negative) return std::nullopt;
    return positive ? Approach::Positive : Approach::Negative;
}

double along_axis(const TargetEvaluation& target) { return target.position.in(natural_unit(target.position.dimension())); }

/// Every mean at one target, of whichever direction.
MeanTrace::Zone all_means(Targets targets) {
    MeanTrace::Zone zone;
    for (const TargetEvaluation& target : targets) {
        std::vector<double> means;
        for (const Approach approach : document::both_approaches)
            if (const auto& mean = target.one_way[approach].mean) means.push_back(in_base_unit(*mean));
        if (means.empty()) continue;
        zone.x.push_back(along_axis(target));
        zone.low.push_back(*std::min_element(means.begin(), means.end()));
        zone.high.push_back(*std::max_element(means.begin(), means.end()));
    }
    return zone;
}

}  // namespace

MeanTrace mean_trace(const SeriesEvaluation& series) {
    MeanTrace trace;
    if (series.kind != SeriesKind::AngleSteps) trace.one_way = only_direction(series);
    for (std::size_t i = 0; i < series.targets.size(); ++i) {
        const TargetEvaluation& target = series.targets[i];
        const auto& value = target.mean_of(trace.one_way);
        if (!value) continue;
        trace.x.push_back(along_axis(target));
        trace.y.push_back(in_base_unit(*value));
        trace.target.push_back(i);
    }
    trace.zone = series.kind == SeriesKind::AngleSteps ? MeanTrace::Zone{trace.x, trace.y, trace.y} : all_means(series.targets);
    return trace;
}

Line reference_line(document::ReferenceLine kind, const MeanTrace& trace) {
    if (kind != document::ReferenceLine::MinimumZone) return reference_line(kind, trace.x, trace.y);
    return minimum_zone_line(least_squares_line(trace.x, trace.y), trace.zone.x, trace.zone.low, trace.zone.high);
}

}  // namespace wayfolio::evaluate
