#include "units/readable_unit.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::units {
namespace {

std::vector<DeviationUnit> multiples_of(const DeviationUnit& unit) {
    const std::vector<std::vector<DeviationUnit>> all{{micrometre, millimetre}, {microinch, inch}, {millidegree, degree}};
    for (const auto& multiples : all)
        if (std::ranges::find(multiples, unit) != multiples.end()) return multiples;
    return {unit};
}

/// How many powers of ten a size lies outside of 1 to 1 000.
double decades_off(double size) {
    constexpr double most = 3;
    const double decades = std::log10(size);
    return decades < 0 ? -decades : std::max(0.0, decades - most);
}

double decades_off(const std::vector<Deviation>& sizes, const DeviationUnit& unit) {
    double decades = 0;
    for (const Deviation& size : sizes)
        if (size.in(unit) > 0) decades += decades_off(size.in(unit));
    return decades;
}

}  // namespace

DeviationUnit readable_unit(const DeviationUnit& own, const std::vector<Deviation>& sizes) {
    DeviationUnit best = own;
    constexpr double clearly = 1e-9;
    for (const DeviationUnit& candidate : multiples_of(own))
        if (decades_off(sizes, candidate) < decades_off(sizes, best) - clearly) best = candidate;
    return best;
}

}  // namespace wayfolio::units
