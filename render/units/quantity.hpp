#pragma once
#include <compare>
#include <string_view>

/// Quantities carry their unit in their type: a unit is named on the way in and on the way out, never in between.
namespace wayfolio::units {

/// A unit of one kind of quantity: how many base units it is worth, and how it is printed and spelt in files.
template <class Kind>
struct Unit {
    double in_base;             ///< value of one such unit, in the kind's base unit
    std::string_view symbol;    ///< as printed on a page, e.g. "µm"
    std::string_view spelling;  ///< as written in a result document, e.g. "um"

    template <class Q = typename Kind::QuantityType>
    constexpr Q operator()(double value) const;
};

/// A value of one kind (length, angle, paper). Holds base units; there is no way to read it without naming a unit.
template <class Kind>
class Quantity {
public:
    constexpr Quantity() = default;
    constexpr Quantity(double value, const Unit<Kind>& unit) : base_(value * unit.in_base) {}

    [[nodiscard]] constexpr double in(const Unit<Kind>& unit) const { return base_ / unit.in_base; }

    constexpr Quantity operator-() const { return from_base(-base_); }
    constexpr Quantity operator+(Quantity other) const { return from_base(base_ + other.base_); }
    constexpr Quantity operator-(Quantity other) const { return from_base(base_ - other.base_); }
    constexpr Quantity operator*(double factor) const { return from_base(base_ * factor); }
    constexpr Quantity operator/(double divisor) const { return from_base(base_ / divisor); }
    constexpr double operator/(Quantity other) const { return base_ / other.base_; }
    constexpr Quantity& operator+=(Quantity other) { base_ += other.base_; return *this; }
    constexpr Quantity& operator-=(Quantity other) { base_ -= other.base_; return *this; }
    constexpr auto operator<=>(const Quantity&) const = default;

private:
    static constexpr Quantity from_base(double base) { Quantity q; q.base_ = base; return q; }
    double base_ = 0;
};

template <class Kind>
constexpr Quantity<Kind> operator*(double factor, Quantity<Kind> quantity) { return quantity * factor; }

template <class Kind>
constexpr Quantity<Kind> abs(Quantity<Kind> quantity) { return quantity < Quantity<Kind>{} ? -quantity : quantity; }

/// A deviation along a direction. Base unit: micrometre.
struct LengthKind { using QuantityType = Quantity<LengthKind>; };
/// A small rotation. Base unit: microradian.
struct AngleKind { using QuantityType = Quantity<AngleKind>; };
/// A distance on the page. Base unit: point (1/72 in). Its own kind, so that no deviation is ever added to a margin.
struct PaperKind { using QuantityType = Quantity<PaperKind>; };

template <class Kind>
template <class Q>
constexpr Q Unit<Kind>::operator()(double value) const { return Q(value, *this); }

using Length = Quantity<LengthKind>;
using Angle = Quantity<AngleKind>;
using Paper = Quantity<PaperKind>;

// Exact by definition: 1 in = 25.4 mm (International yard and pound agreement, 1959; NIST SP 811).
inline constexpr Unit<LengthKind> micrometre{1.0, "µm", "um"};
inline constexpr Unit<LengthKind> millimetre{1e3, "mm", "mm"};
inline constexpr Unit<LengthKind> metre{1e6, "m", "m"};
inline constexpr Unit<LengthKind> inch{25400.0, "in", "in"};
inline constexpr Unit<LengthKind> microinch{0.0254, "µin", "uin"};

inline constexpr double pi = 3.14159265358979323846;
inline constexpr Unit<AngleKind> microradian{1.0, "µrad", "urad"};
inline constexpr Unit<AngleKind> arcsecond{pi / 648000.0 * 1e6, "″", "arcsec"};
inline constexpr Unit<AngleKind> degree{pi / 180.0 * 1e6, "°", "deg"};
/// Only shown, where whole degrees would be mostly zeros; documents and layouts name degrees.
inline constexpr Unit<AngleKind> millidegree{pi / 180.0 * 1e3, "10⁻³\u202f°", "mdeg"};
/// A slope; for the small angles of a machine axis 1 µm/m is 1 µrad.
inline constexpr Unit<AngleKind> micrometre_per_metre{1.0, "µm/m", "um/m"};

inline constexpr Unit<PaperKind> point{1.0, "pt", "pt"};
inline constexpr Unit<PaperKind> paper_millimetre{72.0 / 25.4, "mm", "mm"};

}  // namespace wayfolio::units
