#include "evaluate/series/extremes.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

namespace {

SetBy setter(Targets targets, const Reach& reach, Side side) {
    return {reach.target, targets[reach.target].position, reach.approach, side, side == Side::Max ? reach.high : reach.low};
}

SetBy setter(Targets targets, const Peak& peak) {
    return {peak.target, targets[peak.target].position, peak.approach, std::nullopt, peak.level};
}

/// As equal as doubles can tell after the few operations that made them.
bool equal(const Deviation& a, const Deviation& b, const Deviation& scale) {
    constexpr double rounding = 1e-11;
    return units::abs(a - b) <= rounding * scale;
}

}  // namespace

void add_band(std::vector<Reach>& reaches, Targets targets, Approach approach, double k) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const auto& [n, mean, s, R] = targets[i].one_way[approach];
        if (!mean || (k > 0 && !s)) continue;
        const auto half = k > 0 ? k * *s : 0.0 * *mean;
        reaches.push_back({i, approach, *mean - half, *mean + half});
    }
}

Parameter range_parameter(std::string name, Targets targets, const std::vector<Reach>& reaches) {
    const auto top =
        std::max_element(reaches.begin(), reaches.end(), [](const auto& a, const auto& b) { return a.high < b.high; });
    const auto bottom =
        std::min_element(reaches.begin(), reaches.end(), [](const auto& a, const auto& b) { return a.low < b.low; });
    Parameter parameter{.name = std::move(name),
                        .value = top->high - bottom->low,
                        .set_by = {setter(targets, *top, Side::Max), setter(targets, *bottom, Side::Min)}};
    const Deviation scale = std::max(units::abs(top->high), units::abs(bottom->low));
    for (auto reach = reaches.begin(); reach != reaches.end(); ++reach) {
        if (reach != top && equal(reach->high, top->high, scale)) parameter.tied.push_back(setter(targets, *reach, Side::Max));
        if (reach != bottom && equal(reach->low, bottom->low, scale)) parameter.tied.push_back(setter(targets, *reach, Side::Min));
    }
    return parameter;
}

Parameter maximum_parameter(std::string name, Targets targets, const std::vector<Peak>& peaks) {
    const auto top = std::max_element(peaks.begin(), peaks.end(), [](const auto& a, const auto& b) { return a.size < b.size; });
    Parameter parameter{.name = std::move(name), .value = top->size, .set_by = {setter(targets, *top)}};
    for (auto peak = peaks.begin(); peak != peaks.end(); ++peak)
        if (peak != top && equal(peak->size, top->size, units::abs(top->size))) parameter.tied.push_back(setter(targets, *peak));
    return parameter;
}

}  // namespace wayfolio::evaluate
