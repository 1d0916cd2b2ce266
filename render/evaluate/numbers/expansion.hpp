#pragma once

namespace wayfolio::evaluate {

/// Thermal expansion against the reference temperature, µm: coefficient x length x (temperature - reference).
/// @param coefficient in µm/(m K)
double expansion_um(double length_m, double coefficient, double temperature_C, double reference_C = 20);

/// Its two contributions to uncertainty, standard, in µm: u^2 = L^2 [(T - 20)^2 u_alpha^2 + alpha^2 u_T^2]
/// (Swyt, Journal of Research of NIST 99 (1994) 31).
struct ExpansionUncertainty {
    double from_coefficient, from_temperature, combined;
};
ExpansionUncertainty expansion_uncertainty(double length_m, double coefficient, double u_coefficient, double temperature_C,
                                           double u_temperature_K, double reference_C = 20);

/// The standard uncertainty of a quantity known to lie somewhere in a range, all values alike: range / (2 sqrt 3) (GUM 4.3.7).
double rectangular_standard(double full_range);

}  // namespace wayfolio::evaluate
