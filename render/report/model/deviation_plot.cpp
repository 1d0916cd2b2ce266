#include "report/model/deviation_plot.hpp"

namespace wayfolio::report {

std::vector<std::pair<Position, Deviation>> mean_curve_of(const DeviationPlot& plot) {
    std::vector<std::pair<Position, Deviation>> curve;
    for (const auto& target : plot.targets) {
        const auto& value = target.trace_mean();
        if (value) curve.emplace_back(target.position, *value);
    }
    if (!curve.empty()) return curve;
    curve.reserve(plot.trace.size());
    for (const auto& sample : plot.trace) curve.emplace_back(sample.position, sample.value);
    return curve;
}

}  // namespace wayfolio::report
