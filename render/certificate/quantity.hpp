#pragma once
#include "certificate/drafting.hpp"
#include "units/position.hpp"

/// Quantities in the D-SI format (namespace https://ptb.de/si): SI units and their prefixes, spelt with backslashes.
namespace wayfolio::certificate {

/// A unit that D-SI knows, and its spelling there.
struct SiUnit {
    units::DeviationUnit unit;
    std::string_view spelling;
};
/// The unit itself where D-SI knows it; inches have no place there and are written in µm.
SiUnit si_unit(const units::DeviationUnit& written);

struct SiPositionUnit {
    units::PositionUnit unit;
    std::string_view spelling;
};
/// Millimetres or degrees; inches are written in mm.
SiPositionUnit si_unit(const units::PositionUnit& written);

namespace si {
inline constexpr std::string_view one = "\\one", percent = "\\percent", degree_celsius = "\\degreecelsius", hectopascal = "\\hecto\\pascal",
                                  nanometre = "\\nano\\metre", micrometre = "\\micro\\metre", millimetre = "\\milli\\metre",
                                  microradian = "\\micro\\radian",
                                  micrometre_per_metre = "\\micro\\metre\\metre\\tothe{-1}",
                                  microradian_per_metre = "\\micro\\radian\\metre\\tothe{-1}",
                                  micrometre_per_metre_kelvin = "\\micro\\metre\\metre\\tothe{-1}\\kelvin\\tothe{-1}",
                                  millimetre_per_minute = "\\milli\\metre\\minute\\tothe{-1}",
                                  degree_per_minute = "\\degree\\minute\\tothe{-1}", second = "\\second";
}  // namespace si

/// What si:expandedMU holds.
struct Expanded {
    double value, coverage_factor, coverage_probability;
};
/// The expanded uncertainty of an evaluation in `unit`; nothing for nullptr.
std::optional<Expanded> expanded_of(const evaluate::ParameterUncertainty* uncertainty, const units::DeviationUnit& unit);

/// One value, or the reason why there is none.
struct SiQuantity {
    std::string name, label{}, id{};  ///< label: the name in the evaluation's JSON; id may be empty
    std::optional<double> value{};
    std::string_view unit{};
    std::optional<Expanded> expanded{};
    std::string reason{};              ///< where there is no value
    std::vector<Phrase> description{};
};
void put_quantity(Drafting& drafting, const SiQuantity& quantity, std::string_view element = "dcc:quantity");

/// A list of values in one unit.
struct QuantityList {
    std::string name, label;
    std::vector<double> values;
    std::string_view unit;
};
void put_quantity(Drafting& drafting, const QuantityList& list);

}  // namespace wayfolio::certificate
