#include "evaluate/surroundings/surroundings.hpp"

#include "evaluate/surroundings/environment_record.hpp"
#include "evaluate/surroundings/time.hpp"
#include "evaluate/surroundings/wavelength.hpp"

#include <algorithm>
#include <functional>
#include <iterator>

namespace wayfolio::evaluate {
namespace {

/// Largest less smallest value that a quantity takes during a span: at its ends by straight lines between samples, and at the
/// samples within.
double range_during(const EnvironmentSamples& samples, const Span& span,
                    const std::function<std::optional<double>(const document::EnvironmentSample&)>& value) {
    std::vector<std::pair<double, double>> curve;
    for (const auto* sample : samples) {
        const auto time = seconds_of(sample->time);
        const auto v = value(*sample);
        if (time && v) curve.emplace_back(*time, *v);
    }
    if (curve.empty()) return 0;
    std::stable_sort(curve.begin(), curve.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    const auto at = [&](double time) {
        const auto after =
            std::lower_bound(curve.begin(), curve.end(), time, [](const auto& point, double t) { return point.first < t; });
        if (after == curve.begin()) return curve.front().second;
        if (after == curve.end()) return curve.back().second;
        const auto before = std::prev(after);
        return before->second + (after->second - before->second) * (time - before->first) / (after->first - before->first);
    };
    double low = std::min(at(span.from), at(span.to)), high = std::max(at(span.from), at(span.to));
    for (const auto& [time, v] : curve)
        if (time > span.from && time < span.to) {
            low = std::min(low, v);
            high = std::max(high, v);
        }
    return high - low;
}

bool belongs(const std::string& sensor, const document::Axis* axis) {
    return !axis || axis->sensors.empty() || std::find(axis->sensors.begin(), axis->sensors.end(), sensor) != axis->sensors.end();
}

RunSurroundings moved_during(const EnvironmentSamples& samples, const Span& span, const document::Axis* axis, double wavelength_um) {
    RunSurroundings moved{};
    moved.air_K = range_during(samples, span, [](const auto& sample) { return sample.air_C; });
    moved.index_um_per_m = 1e6 * range_during(samples, span, [&](const auto& sample) -> std::optional<double> {
                               const auto air = air_of(sample);
                               if (!air) return std::nullopt;
                               return ciddor_index(*air, wavelength_um);
                           });
    // Sensors differ in place: the change of each counts, not their spread.
    if (samples.empty()) return moved;
    for (const auto& sensor : samples.front()->machine_C) {
        if (!belongs(sensor.first, axis)) continue;
        const double change = range_during(samples, span, [&](const auto& sample) -> std::optional<double> {
            const auto found = std::find_if(sample.machine_C.begin(), sample.machine_C.end(),
                                            [&](const auto& s) { return s.first == sensor.first; });
            if (found == sample.machine_C.end()) return std::nullopt;
            return found->second;
        });
        moved.machine_K = std::max(moved.machine_K, change);
    }
    return moved;
}

}  // namespace

std::vector<RunSurroundings> surroundings_during_runs(const document::Document& document) {
    std::vector<RunSurroundings> all;
    if (!document.environment) return all;
    for (const auto& series : document.series)
        for (std::size_t run = 0; run < series.runs.size(); ++run) {
            const auto span = span_of(series.runs[run]);
            if (!span) continue;
            all.push_back(moved_during(samples_during(document, span), *span, document::find_axis(document, series.error.axis),
                                       wavelength_of(document, series).um()));
            all.back().series = series.id;
            all.back().run = run;
        }
    return all;
}

}  // namespace wayfolio::evaluate
