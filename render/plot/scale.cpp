#include "plot/scale.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace wayfolio::plot {
namespace {

constexpr std::array<int, 3> mantissas{1, 2, 5};

struct Step {
    int mantissa, exponent;
    [[nodiscard]] double size() const { return multiple(1); }
    /// Built from integers so that ticks are the doubles nearest to the round numbers (0.3, not 0.30000000000000004).
    [[nodiscard]] double multiple(long count) const {
        const double whole = static_cast<double>(count * mantissa);
        return exponent < 0 ? whole / std::pow(10.0, -exponent) : whole * std::pow(10.0, exponent);
    }
    [[nodiscard]] Step next() const {
        return mantissa == 1 ? Step{2, exponent} : mantissa == 2 ? Step{5, exponent} : Step{1, exponent + 1};
    }
};

Step first_step(double range) { return {1, static_cast<int>(std::floor(std::log10(range))) - 2}; }

Ticks ticks(Step step, long first, long last) {
    Ticks made{.values = {}, .step = step.size(), .decimals = std::max(0, -step.exponent)};
    for (long i = first; i <= last; ++i) made.values.push_back(step.multiple(i));
    return made;
}

// A data value that is a tick up to rounding counts as on it.
constexpr double slack = 1e-9;
long floor_multiple(double value, double step) { return static_cast<long>(std::floor(value / step + slack)); }
long ceil_multiple(double value, double step) { return static_cast<long>(std::ceil(value / step - slack)); }

/// The narrowest range that is divided: what is nearer together than a billionth of its size, or of one unit, is rounding of doubles, and
/// steps of it would be endless or have more digits than a label has room for.
double least_range(double low, double high) { return 1e-9 * std::max({std::abs(low), std::abs(high), 1.0}); }

void widen(double& low, double& high, double half) {
    const double middle = low + (high - low) / 2;
    low = middle - half;
    high = middle + half;
}

}  // namespace

Ticks enclosing_ticks(double low, double high, int most) {
    most = std::max(most, 2);  // a range about 0 has a tick below it, 0, and one above it
    if (!(high > low)) widen(low, high, std::max(std::abs(low) * 1e-6, 0.5));
    else if (high - low < least_range(low, high)) widen(low, high, least_range(low, high) / 2);
    for (Step step = first_step(high - low);; step = step.next()) {
        const long first = floor_multiple(low, step.size());
        const long last = ceil_multiple(high, step.size());
        if (last - first <= most) return ticks(step, first, last);
    }
}

Ticks inside_ticks(double low, double high, int most) {
    most = std::max(most, 1);
    if (!(high > low)) return {{low}, 1, 0};
    if (high - low < least_range(low, high)) return {{}, 1, 0};
    for (Step step = first_step(high - low);; step = step.next()) {
        const long first = ceil_multiple(low, step.size());
        const long last = floor_multiple(high, step.size());
        if (last - first + 1 <= most) return ticks(step, first, last);
    }
}

}  // namespace wayfolio::plot
