#include "evaluate/surroundings/axis_length.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {

std::optional<double> axis_length_m(const document::Document& document, std::string_view name) {
    if (const auto* axis = document::find_axis(document, name); axis && axis->travel) {
        if (axis->kind == document::AxisKind::Rotary) return std::nullopt;
        return std::abs(axis->travel->to.in(units::position_metre)-axis->travel->from.in(units::position_metre));
    }
    std::optional<double> low, high;
    for (const auto& series : document.series) {
        if (series.error.axis != name || series.error.axis_is_rotary()) continue;
        for (const auto& target : series.targets) {
            const double metres = target.position.in(units::position_metre);
            low = std::min(low.value_or(metres), metres);
            high = std::max(high.value_or(metres), metres);
        }
    }
    if (!low || *high <= *low) return std::nullopt;
    return *high - *low;
}

}  // namespace wayfolio::evaluate
