#pragma once
#include "units/deviation.hpp"

#include <vector>

namespace wayfolio::units {

/// That decimal multiple of `own` in which the sizes have one to three digits before the point: µm or mm, µin or in, 10⁻³ ° or °. Another
/// system of units is never chosen, and `own` wherever another is no better. By choice: the digits stay as they were written.
DeviationUnit readable_unit(const DeviationUnit& own, const std::vector<Deviation>& sizes);

}  // namespace wayfolio::units
