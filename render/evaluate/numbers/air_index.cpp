#include "evaluate/numbers/air_index.hpp"

#include <cmath>

namespace wayfolio::evaluate {
namespace {

constexpr double zero_celsius_K = 273.15;

double over_water(double T) {
    const double omega = T - 0.238555575678 / (T - 650.175348448);
    const double a = omega * omega + 1167.05214528 * omega - 724213.167032;
    const double b = -17.0738469401 * omega * omega + 12020.8247025 * omega - 3232555.03223;
    const double c = 14.9151086135 * omega * omega - 4823.26573616 * omega + 405113.405421;
    return 1e6 * std::pow(2 * c / (-b + std::sqrt(b * b - 4 * a * c)), 4);
}

double over_ice(double T) {
    const double theta = T / 273.16;
    return 611.657 * std::exp(-13.928169 * (1 - std::pow(theta, -1.5)) + 34.7078238 * (1 - std::pow(theta, -1.25)));
}

/// Compressibility of moist air; x is the mole fraction of water vapour.
double compressibility(double p, double t, double x) {
    const double T = t + zero_celsius_K;
    const double first =
        1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t + (5.707e-6 - 2.051e-8 * t) * x + (1.9898e-4 - 2.376e-6 * t) * x * x;
    return 1 - p / T * first + p / T * (p / T) * (1.83e-11 - 7.65e-9 * x * x);
}

}  // namespace

double saturation_vapour_pressure(double temperature_C) {
    const double T = temperature_C + zero_celsius_K;
    return temperature_C >= 0 ? over_water(T) : over_ice(T);
}

double enhancement_factor(double temperature_C, double pressure_Pa) {
    return 1.00062 + 3.14e-8 * pressure_Pa + 5.60e-7 * temperature_C * temperature_C;
}

double ciddor_index_of_mole_fraction(const Air& air, double x, double vacuum_wavelength_um) {
    const double p = air.pressure_Pa, t = air.temperature_C, T = t + zero_celsius_K;
    const double S = 1 / (vacuum_wavelength_um * vacuum_wavelength_um);
    constexpr double R = 8.314472, water_molar_mass = 0.018015;
    const double air_molar_mass = 0.0289635 + 1.2011e-8 * (air.co2_umol_per_mol - 400);
    // Refractivity of dry air at 15 degC and 101 325 Pa, and of water vapour at 20 degC and 1 333 Pa.
    const double dry = 1e-8 * (5792105 / (238.0185 - S) + 167917 / (57.362 - S)) * (1 + 5.34e-7 * (air.co2_umol_per_mol - 450));
    const double vapour = 1.022e-8 * (295.235 + 2.6422 * S - 0.03238 * S * S + 0.004028 * S * S * S);
    constexpr double vapour_density_there = 0.00985938;
    const double air_density_there = 101325 * air_molar_mass / (0.9995922115 * R * 288.15);
    const double per_mole = p / (compressibility(p, t, x) * R * T);
    return 1 + (1 - x) * per_mole * air_molar_mass / air_density_there * dry +
           x * per_mole * water_molar_mass / vapour_density_there * vapour;
}

double ciddor_index(const Air& air, double vacuum_wavelength_um) {
    const double vapour_pressure = air.humidity_percent / 100 * saturation_vapour_pressure(air.temperature_C);
    const double x = enhancement_factor(air.temperature_C, air.pressure_Pa) * vapour_pressure / air.pressure_Pa;
    return ciddor_index_of_mole_fraction(air, x, vacuum_wavelength_um);
}

double modified_edlen_index(const Air& air, double vacuum_wavelength_um) {
    const double p = air.pressure_Pa, t = air.temperature_C;
    const double S = 1 / (vacuum_wavelength_um * vacuum_wavelength_um);
    const double vapour_pressure = air.humidity_percent / 100 * saturation_vapour_pressure(t);
    const double standard = 1e-8 * (8342.54 + 2406147 / (130 - S) + 15998 / (38.9 - S));
    const double X = (1 + 1e-8 * (0.601 - 0.00972 * t) * p) / (1 + 0.003661 * t);
    return 1 + p * standard * X / 96095.43 - 1e-10 * (292.75 / (t + zero_celsius_K)) * (3.7345 - 0.0401 * S) * vapour_pressure;
}

AirSensitivity air_sensitivity(const Air& air, double vacuum_wavelength_um) {
    const auto slope = [&](double Air::*quantity, double step) {
        Air above = air, below = air;
        above.*quantity += step;
        below.*quantity -= step;
        return 1e6 * (ciddor_index(above, vacuum_wavelength_um) - ciddor_index(below, vacuum_wavelength_um)) / (2 * step);
    };
    return {slope(&Air::temperature_C, 0.1), 100 * slope(&Air::pressure_Pa, 100), slope(&Air::humidity_percent, 1)};
}

}  // namespace wayfolio::evaluate
