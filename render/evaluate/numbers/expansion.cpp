#include "evaluate/numbers/expansion.hpp"

#include <cmath>

namespace wayfolio::evaluate {

double expansion_um(double length_m, double coefficient, double temperature_C, double reference_C) {
    return coefficient * length_m * (temperature_C - reference_C);
}

ExpansionUncertainty expansion_uncertainty(double length_m, double coefficient, double u_coefficient, double temperature_C,
                                           double u_temperature_K, double reference_C) {
    const double a = length_m * std::abs(temperature_C - reference_C) * u_coefficient;
    const double b = length_m * coefficient * u_temperature_K;
    return {a, b, std::hypot(a, b)};
}

double rectangular_standard(double full_range) { return full_range / (2 * std::sqrt(3.0)); }

}  // namespace wayfolio::evaluate
