#pragma once
#include "units/quantity.hpp"

#include <array>
#include <cassert>
#include <optional>
#include <string_view>

/// What a series measures is known only when its file is read: a length or an angle. These types carry that at run time.
namespace wayfolio::units {

enum class Dimension { Length, Angle };

/// One of the units a deviation may be written or shown in.
struct DeviationUnit {
    Dimension dimension;
    double in_base;             ///< in µm for a length, in µrad for an angle
    std::string_view symbol;    ///< printed
    std::string_view spelling;  ///< in files

    constexpr DeviationUnit(const Unit<LengthKind>& unit)
        : dimension(Dimension::Length), in_base(unit.in_base), symbol(unit.symbol), spelling(unit.spelling) {}
    constexpr DeviationUnit(const Unit<AngleKind>& unit)
        : dimension(Dimension::Angle), in_base(unit.in_base), symbol(unit.symbol), spelling(unit.spelling) {}
    constexpr bool operator==(const DeviationUnit& other) const { return spelling == other.spelling; }
};

/// Units of deviations, in the spelling of the result document: um mm in uin | urad arcsec deg um/m.
inline constexpr std::array<DeviationUnit, 8> deviation_units{
    DeviationUnit{micrometre}, {millimetre}, {inch}, {microinch},
    {microradian}, {arcsecond}, {degree}, {micrometre_per_metre}};

/// The unit spelt so, or nothing.
std::optional<DeviationUnit> deviation_unit(std::string_view spelling);

/// A length or an angle. Mixing the two is a programming error (asserted).
class Deviation {
public:
    constexpr Deviation(double value, const DeviationUnit& unit) : base_(value * unit.in_base), dimension_(unit.dimension) {}
    constexpr Deviation(Length length) : base_(length.in(micrometre)), dimension_(Dimension::Length) {}
    constexpr Deviation(Angle angle) : base_(angle.in(microradian)), dimension_(Dimension::Angle) {}

    [[nodiscard]] constexpr Dimension dimension() const { return dimension_; }
    [[nodiscard]] constexpr double in(const DeviationUnit& unit) const {
        assert(unit.dimension == dimension_);
        return base_ / unit.in_base;
    }

    constexpr Deviation operator-() const { return {-base_, dimension_}; }
    constexpr Deviation operator+(Deviation o) const { return {base_ + same(o).base_, dimension_}; }
    constexpr Deviation operator-(Deviation o) const { return {base_ - same(o).base_, dimension_}; }
    constexpr Deviation operator*(double f) const { return {base_ * f, dimension_}; }
    constexpr Deviation operator/(double d) const { return {base_ / d, dimension_}; }
    constexpr double operator/(Deviation o) const { return base_ / same(o).base_; }
    constexpr bool operator==(const Deviation& o) const { return dimension_ == o.dimension_ && base_ == o.base_; }
    constexpr auto operator<=>(const Deviation& o) const { return base_ <=> same(o).base_; }

private:
    constexpr Deviation(double base, Dimension dimension) : base_(base), dimension_(dimension) {}
    constexpr const Deviation& same(const Deviation& o) const { assert(o.dimension_ == dimension_); return o; }
    double base_;
    Dimension dimension_;
};

constexpr Deviation operator*(double factor, Deviation deviation) { return deviation * factor; }
constexpr Deviation abs(Deviation d) { return d < d * 0.0 ? -d : d; }

}  // namespace wayfolio::units
