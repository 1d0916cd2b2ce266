#include "plan/target_positions.hpp"

#include <algorithm>
#include <cmath>
#include <random>

namespace wayfolio::plan {
namespace {

constexpr double whole_turn = 360, longest_short_axis_mm = 2000, long_interval_mm = 250, metre_mm = 1000;
constexpr double same_place = 1e-6;

/// Places in one unit of the range.
double places_in_unit(const Range& range) {
    if (range.rotary()) return 100;
    return range.unit == units::position_inch ? 1000 : 10;
}

bool is_whole_turn(const Range& range) { return range.rotary() && std::abs(range.span() - whole_turn) < same_place; }

/// From -1 to 1. The engine is the standard's (C++ 26.6.6.3 in C++20), its distributions are not the same everywhere.
double random_number(std::mt19937_64& engine) { return static_cast<double>(engine() >> 11U) * 0x1p-52 - 1; }

/// Each principal position takes the place of the target between the ends that is nearest to it.
void take_principal_positions(std::vector<double>& positions, const Range& range) {
    const double low = std::min(range.from, range.to), high = std::max(range.from, range.to);
    for (double principal = std::ceil(low / 90) * 90; principal < high - same_place; principal += 90) {
        const auto nearest = std::ranges::min_element(positions, {}, [&](double at) { return std::abs(at - principal); });
        const bool end = nearest == positions.begin() || std::next(nearest) == positions.end();
        if (!end || is_whole_turn(range) || std::abs(*nearest - principal) < same_place)
            *nearest = principal;
        else
            positions.push_back(principal);
        std::ranges::sort(positions);
    }
}

}  // namespace

double Range::span() const { return std::abs(to - from) * unit.in_natural; }

std::size_t least_targets(const Range& range) {
    const auto counted = [](double count) { return static_cast<std::size_t>(std::ceil(count - same_place)); };
    const double span = range.span();
    if (range.rotary()) {
        if (span > whole_turn) return std::max<std::size_t>(8, counted(8 * span / whole_turn) + 1);
        return span <= 90 ? 3 : span <= 180 ? 5 : 8;
    }
    if (span > longest_short_axis_mm) return counted(span / long_interval_mm) + 1;
    return std::max<std::size_t>(5, counted(5 * span / metre_mm));
}

std::vector<double> target_positions(const Range& range, std::size_t count, std::uint64_t seed) {
    std::mt19937_64 engine(seed);
    const double first = std::min(range.from, range.to), last = std::max(range.from, range.to), places = places_in_unit(range);
    const std::size_t intervals = is_whole_turn(range) ? count : count - 1;
    const double interval = (last - first) / static_cast<double>(intervals);
    std::vector<double> positions;
    for (std::size_t place = 0; place < count; ++place) {
        const double regular = first + interval * static_cast<double>(place);
        const double moved = std::round((regular + interval * random_part * random_number(engine)) * places) / places;
        positions.push_back(place == 0 ? first : place == intervals ? last : moved);
    }
    if (range.rotary()) take_principal_positions(positions, range);
    return positions;
}

}  // namespace wayfolio::plan
