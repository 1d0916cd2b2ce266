#include "evaluate/surroundings/time.hpp"

#include "input/iso_date.hpp"

namespace wayfolio::evaluate {

std::optional<double> seconds_of(std::string_view text) {
    const auto date = input::iso_date(text);
    if (!date) return std::nullopt;
    return 86400.0 * static_cast<double>(date->days()) + date->seconds.value_or(0) - 60.0 * date->offset_minutes.value_or(0);
}

}  // namespace wayfolio::evaluate
