#include "compare/changes.hpp"

#include <algorithm>

namespace wayfolio::compare {

namespace {

units::Deviation small(units::Dimension dimension, double size) {
    return dimension == units::Dimension::Length ? units::Deviation(size, units::micrometre) : units::Deviation(size, units::microradian);
}

}  // namespace

bool same_value(const std::optional<units::Deviation>& a, const std::optional<units::Deviation>& b) {
    if (!a || !b) return !a && !b;
    if (a->dimension() != b->dimension()) return false;
    const units::Deviation larger = std::max(units::abs(*a), units::abs(*b));
    return units::abs(*a - *b) <= std::max(larger * 1e-7, small(a->dimension(), 1e-6));
}

bool same_place(const units::Position& a, const units::Position& b) {
    return a.dimension() == b.dimension() && units::abs(a - b) <= small(a.dimension(), 0.1);
}

}  // namespace wayfolio::compare
