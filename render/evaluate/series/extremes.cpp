#include "evaluate/series/extremes.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

const std::optional<Deviation>& mean_of(const TargetEvaluation& target, Approach approach) {
    return approach == Approach::Positive ? target.mean_positive : target.mean_negative;
}

const std::optional<Deviation>& spread_of(const TargetEvaluation& target, Approach approach) {
    return approach == Approach::Positive ? target.s_positive : target.s_negative;
}

void add_band(std::vector<Reach>& reaches, Targets targets, Approach approach, double k) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const auto& mean = mean_of(targets[i], approach);
        const auto& spread = spread_of(targets[i], approach);
        if (!mean || (k > 0 && !spread)) continue;
        const auto half = k > 0 ? k * *spread : 0.0 * *mean;
        reaches.push_back({i, approach, *mean - half, *mean + half});
    }
}

Parameter range_parameter(std::string name, Targets targets, const std::vector<Reach>& reaches) {
    const auto top =
        std::max_element(reaches.begin(), reaches.end(), [](const auto& a, const auto& b) { return a.high < b.high; });
    const auto bottom =
        std::min_element(reaches.begin(), reaches.end(), [](const auto& a, const auto& b) { return a.low < b.low; });
    return {.name = std::move(name),
            .value = top->high - bottom->low,
            .set_by = {{top->target, targets[top->target].position, top->approach, Side::Max, top->high},
                       {bottom->target, targets[bottom->target].position, bottom->approach, Side::Min, bottom->low}}};
}

Parameter maximum_parameter(std::string name, Targets targets, const std::vector<Peak>& peaks) {
    const auto top = std::max_element(peaks.begin(), peaks.end(), [](const auto& a, const auto& b) { return a.size < b.size; });
    return {.name = std::move(name),
            .value = top->size,
            .set_by = {{top->target, targets[top->target].position, top->approach, std::nullopt, top->level}}};
}

}  // namespace wayfolio::evaluate
