#include "evaluate/numbers/statistics.hpp"

#include <cassert>
#include <cmath>
#include <numeric>

namespace wayfolio::evaluate {

double mean(std::span<const double> values) {
    assert(!values.empty());
    const auto n = static_cast<double>(values.size());
    const double first = std::accumulate(values.begin(), values.end(), 0.0) / n;
    double left_over = 0;
    for (const double value : values) left_over += value - first;
    return first + left_over / n;
}

double standard_deviation(std::span<const double> values) {
    assert(values.size() >= 2);
    const auto n = static_cast<double>(values.size());
    const double centre = mean(values);
    double sum = 0, squares = 0;
    for (const double value : values) {
        const double residual = value - centre;
        sum += residual;
        squares += residual * residual;
    }
    return std::sqrt((squares - sum * sum / n) / (n - 1));
}

double dot(std::span<const double> a, std::span<const double> b) {
    assert(a.size() == b.size());
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

}  // namespace wayfolio::evaluate
