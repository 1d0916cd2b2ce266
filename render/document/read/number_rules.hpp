#pragma once
#include "input/json/object_reader.hpp"
#include "units/deviation.hpp"
#include "units/position.hpp"

/// What the numbers of a document can be, by kind. Wide enough for every machine there is, and for the slip of a unit to be told where it
/// was made; narrow enough that whatever is computed and drawn from them stays finite. By choice, where no source is named.
namespace wayfolio::document {

using input::NumberRule;

inline constexpr NumberRule positive_length_mm{"a length in mm, from 0.001 to 1 000 000",
                                               [](double n) { return n >= 1e-3 && n <= 1e6; }};
inline constexpr NumberRule length_mm{"a length in mm, from 0 to 1 000 000", [](double n) { return n >= 0 && n <= 1e6; }};
inline constexpr NumberRule position_mm{"a position of at most 1 000 000 in size", [](double n) { return n >= -1e6 && n <= 1e6; }};
inline constexpr NumberRule pitch{"a pitch in the unit of positions, from 0.001 to 1 000 000",
                                  [](double n) { return n >= 1e-3 && n <= 1e6; }};
inline constexpr NumberRule cutoff{"a cut-off in the unit of positions, from 0.001 to 1 000 000",
                                   [](double n) { return n >= 1e-3 && n <= 1e6; }};
inline constexpr NumberRule spacing_deg{"an angle in degrees, from 0.001 to 36 000", [](double n) { return n >= 1e-3 && n <= 36'000; }};
inline constexpr NumberRule increment{"a number from 0.000001 to 1 000 000", [](double n) { return n >= 1e-6 && n <= 1e6; }};
inline constexpr NumberRule feed{"a number above 0, of at most 10 000 000", [](double n) { return n > 0 && n <= 1e7; }};
inline constexpr NumberRule seconds{"a time in seconds, from 0 to 1 000 000", [](double n) { return n >= 0 && n <= 1e6; }};

/// Of machines and of rooms: beyond these nothing is measured on a machine tool.
inline constexpr NumberRule temperature_C{"a temperature in degC, from -100 to 300", [](double n) { return n >= -100 && n <= 300; }};
/// Ciddor's equation holds from -40 to 100 degC [Applied Optics 35 (1996) 1566, from memory].
inline constexpr NumberRule air_C{"a temperature of air in degC, from -40 to 100", [](double n) { return n >= -40 && n <= 100; }};
/// Of the air that people work in: the summit of the highest mountain has 337 hPa, the deepest mine less than 1 400 hPa [from memory].
inline constexpr NumberRule pressure_hPa{"a pressure of air in hPa, from 300 to 1400", [](double n) { return n >= 300 && n <= 1400; },
                                         "1 kPa is 10 hPa; omit the key if the pressure is not known"};
inline constexpr NumberRule percent{"a percentage from 0 to 100", [](double n) { return n >= 0 && n <= 100; }};
inline constexpr NumberRule co2_ppm{"a content from 0 to 100 000 ppm", [](double n) { return n >= 0 && n <= 1e5; }};
inline constexpr NumberRule coefficient_um_per_m_K{"a coefficient in um/(m K), from -1000 to 1000, as 11.5",
                                                   [](double n) { return n >= -1000 && n <= 1000; }};
inline constexpr NumberRule coefficient_uncertainty{"an uncertainty in um/(m K), from 0 to 1000",
                                                    [](double n) { return n >= 0 && n <= 1000; }};

/// Student's t for one degree of freedom and 99 % is 63.7: larger ones are no factors.
inline constexpr NumberRule coverage_factor{"a coverage factor from 0.1 to 100, as 2", [](double n) { return n >= 0.1 && n <= 100; }};
/// Half a degree of freedom belongs to an uncertainty that may as well be twice as large [GUM G.4.2].
inline constexpr NumberRule degrees_of_freedom{"degrees of freedom, 0.1 or more", [](double n) { return n >= 0.1; }};

/// Limits, uncertainties and stated values, in whatever unit stands beside them.
inline constexpr NumberRule size{"a number from 0 to 1 000 000 000", [](double n) { return n >= 0 && n <= 1e9; }};
inline constexpr NumberRule signed_size{"a number of at most 1 000 000 000 in size", [](double n) { return n >= -1e9 && n <= 1e9; }};
inline constexpr NumberRule deviation_um{"a deviation in um, of at most 1 000 000 in size (1 m)",
                                         [](double n) { return n >= -1e6 && n <= 1e6; }};

/// A place along or about an axis: within a kilometre, within a hundred turns.
const NumberRule& position_rule(const units::PositionUnit& unit);
/// A reading: within a metre, within a hundred turns.
const NumberRule& deviation_rule(const units::DeviationUnit& unit);

/// Two targets nearer to each other than this, in mm, in or deg, are one place: no machine goes to both.
inline constexpr double least_distance = 1e-6;

}  // namespace wayfolio::document
