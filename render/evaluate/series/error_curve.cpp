#include "evaluate/series/error_curve.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

Deviation ErrorCurve::at(const Position& position) const {
    const auto found = std::lower_bound(places.begin(), places.end(), position);
    if (found == places.end()) return means.back();
    const auto i = static_cast<std::size_t>(found - places.begin());
    if (i == 0 || *found == position) return means[i];
    const double share = (position - places[i - 1]) / (places[i] - places[i - 1]);
    return means[i - 1] + (means[i] - means[i - 1]) * share;
}

ErrorCurve error_curve(const SeriesEvaluation& series, std::optional<Approach> approach) {
    ErrorCurve curve;
    for (const TargetEvaluation& target : series.targets) {
        const auto& mean = target.mean_of(approach);
        if (!mean) continue;
        curve.places.push_back(target.position);
        curve.means.push_back(*mean);
    }
    return curve;
}

}  // namespace wayfolio::evaluate
