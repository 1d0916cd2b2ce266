#include "evaluate/series/extremes.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

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
