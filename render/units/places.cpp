#include "units/places.hpp"

#include "units/number_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace wayfolio::units {
namespace {

constexpr int most_decimals = 12;

}  // namespace

int decimals_of_step(double step) {
    constexpr double slack = 1e-9;  // log10(0.1) may come out a hair under -1
    return static_cast<int>(std::ceil(-std::log10(step) - slack));
}

int decimals_that_show(double value, int decimals) {
    if (value == 0) return decimals;
    while (decimals < most_decimals && printed(value, decimals) == 0) ++decimals;
    return decimals;
}

int decimals_of_result(const std::optional<double>& U, const std::optional<int>& reading) {
    if (!U || !(*U > 0)) return reading.value_or(1);
    const int deserved = decimals_for_uncertainty(*U);
    return decimals_that_show(*U, reading ? std::min(deserved, *reading + 1) : deserved);
}

PrintedDifference printed_difference(double first, double second, int decimals, double nothing) {
    const bool differ = std::abs(second - first) > nothing;
    constexpr int most_more = 6;
    for (int more = 0;; ++more) {
        const double difference = printed(second, decimals + more) - printed(first, decimals + more);
        if (!differ || more == most_more || printed(difference, decimals + more) != 0) return {decimals + more, difference};
    }
}

double printed(double value, int decimals) {
    if (decimals <= 0) {
        const double step = std::pow(10.0, -decimals);
        return std::nearbyint(value / step) * step;
    }
    // As number() does it: the double itself is rounded, not a scaled copy.
    std::array<char, 400> buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
    double rounded = 0;
    std::from_chars(buffer.data(), end.ptr, rounded);
    return rounded;
}

}  // namespace wayfolio::units
