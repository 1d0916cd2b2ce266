#pragma once

/// Refractive index of air for visible and near infrared light, as a length interferometer needs it.
namespace wayfolio::evaluate {

struct Air {
    double temperature_C = 20, pressure_Pa = 101325, humidity_percent = 50;
    double co2_umol_per_mol = 450;  ///< NIST's value for indoor air; 100 more raise the index by 1.45e-8
};

/// Vacuum wavelength of a helium-neon laser [from memory].
inline constexpr double helium_neon_nm = 632.9912, helium_neon_um = helium_neon_nm / 1000;

/// Saturation vapour pressure in Pa at a temperature in degC; over ice below 0 degC.
/// IAPWS equations as given by the NIST Engineering Metrology Toolbox, appendix A-I (Stone and Zimmerman).
double saturation_vapour_pressure(double temperature_C);

/// Ciddor, Applied Optics 35 (1996) 1566, in the form of the NIST toolbox, appendix A-III.
double ciddor_index(const Air& air, double vacuum_wavelength_um = helium_neon_um);

/// As ciddor_index(), from a mole fraction of water vapour instead of the relative humidity.
double ciddor_index_of_mole_fraction(const Air& air, double water_mole_fraction, double vacuum_wavelength_um = helium_neon_um);

/// The enhancement factor of water vapour in air [Ciddor 1996]: mole fraction = factor x vapour pressure / pressure.
double enhancement_factor(double temperature_C, double pressure_Pa);

/// Modified Edlen equation: Birch and Downs, Metrologia 30 (1993) 155 and 31 (1994) 315, with the temperature factor of the water
/// term that the NIST toolbox adds (appendix A-IV). Three sets of dispersion constants are in circulation: these are those of
/// 1994.
double modified_edlen_index(const Air& air, double vacuum_wavelength_um = helium_neon_um);

/// How the index answers to its surroundings, in parts per million.
struct AirSensitivity {
    double per_K, per_hPa, per_percent_humidity;
};

/// By central differences of Ciddor's equation at the given air.
AirSensitivity air_sensitivity(const Air& air, double vacuum_wavelength_um = helium_neon_um);

}  // namespace wayfolio::evaluate
