#include "units/position.hpp"

#include <algorithm>

namespace wayfolio::units {

std::optional<PositionUnit> position_unit(std::string_view spelling) {
    const auto* found = std::ranges::find(position_units, spelling, &PositionUnit::spelling);
    if (found == position_units.end()) return std::nullopt;
    return *found;
}

}  // namespace wayfolio::units
