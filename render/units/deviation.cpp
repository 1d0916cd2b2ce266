#include "units/deviation.hpp"

#include <algorithm>

namespace wayfolio::units {

std::optional<DeviationUnit> deviation_unit(std::string_view spelling) {
    const auto* found = std::ranges::find(deviation_units, spelling, &DeviationUnit::spelling);
    if (found == deviation_units.end()) return std::nullopt;
    return *found;
}

}  // namespace wayfolio::units
