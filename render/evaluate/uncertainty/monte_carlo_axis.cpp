#include "evaluate/uncertainty/monte_carlo_axis.hpp"

#include "evaluate/series/targets.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// One direction at one target, in base units.
struct Direction {
    double mean, s, mean_spread;
    std::size_t freedom;
};

struct Place {
    double metres;
    Direction positive, negative;
};

std::optional<Direction> direction_of(const TargetEvaluation& target, Approach approach, double drift) {
    const auto& [n, mean, s, R] = target.one_way[approach];
    if (!mean || !s || n < 2) return std::nullopt;
    const auto unit = base_unit(mean->dimension());
    const double spread = s->in(unit);
    return Direction{mean->in(unit), spread, std::hypot(spread, drift) / std::sqrt(static_cast<double>(n)), n - 1};
}

std::vector<Place> places_of(Targets targets, double drift) {
    std::vector<Place> places;
    for (const auto& target : targets) {
        const auto positive = direction_of(target, Approach::Positive, drift),
                   negative = direction_of(target, Approach::Negative, drift);
        if (!positive || !negative) return {};
        const bool linear = target.position.dimension() == units::Dimension::Length;
        places.push_back({linear ? target.position.in(units::position_metre) : 0, *positive, *negative});
    }
    return places;
}

/// Largest and smallest so far, and where they stand.
struct Extent {
    double low = INFINITY, high = -INFINITY, low_at = 0, high_at = 0;
    void take(double from, double to, double metres) {
        if (from < low) {
            low = from;
            low_at = metres;
        }
        if (to > high) {
            high = to;
            high_at = metres;
        }
    }
    /// The constant part of a certificate adds to the length part over a distance ("U = constant + length part"): like a longer
    /// distance it widens a rising range and narrows a falling one.
    [[nodiscard]] double range(double constant) const { return high - low + (high_at < low_at ? -constant : constant); }
};

/// A, E, R, B, M of one trial, in this order. Symbols and formulas as in positioning.hpp.
using Five = std::array<double, 5>;
constexpr std::array<std::string_view, 5> five_names{"A", "E", "R", "B", "M"};

Five trial(const std::vector<Place>& places, const AxisModel& model, Draws& draws) {
    const double common = draws.normal(0, 1), constant = common * model.constant, setup = draws.normal(0, model.setup);
    Extent band, means, middle;
    double repeatability = 0, reversal = 0;
    const auto spread = [&](const Direction& side) {
        return side.s * std::sqrt(draws.chi_squared(side.freedom) / static_cast<double>(side.freedom));
    };
    for (const Place& place : places) {
        const double systematic = common * model.per_metre * place.metres;
        const double up = place.positive.mean + systematic + draws.normal(0, place.positive.mean_spread);
        const double down = place.negative.mean + systematic + draws.normal(0, place.negative.mean_spread);
        const double s_up = spread(place.positive), s_down = spread(place.negative);
        const double B = std::abs(up - down);
        band.take(std::min(up - 2 * s_up, down - 2 * s_down), std::max(up + 2 * s_up, down + 2 * s_down), place.metres);
        means.take(std::min(up, down), std::max(up, down), place.metres);
        middle.take((up + down) / 2, (up + down) / 2, place.metres);
        reversal = std::max(reversal, B);
        repeatability = std::max({repeatability, 2 * s_up + 2 * s_down + B, 4 * s_up, 4 * s_down});
    }
    // Constant part and set-up act on differences between places; repeatability and reversal are differences at one place.
    return {band.range(constant) + setup, means.range(constant) + setup, repeatability, reversal, middle.range(constant) + setup};
}

}  // namespace

std::vector<SimulatedParameter> simulate_axis(Targets targets, const AxisModel& model, const std::vector<std::string>& names,
                                              std::size_t trials, std::uint64_t seed, double coverage) {
    const auto places = places_of(targets, model.drift);
    if (places.size() < 2 || trials < 2) return {};
    std::vector<std::size_t> asked;
    for (const auto& name : names) {
        const auto found = std::find(five_names.begin(), five_names.end(), name);
        if (found != five_names.end()) asked.push_back(static_cast<std::size_t>(found - five_names.begin()));
    }
    std::vector<std::vector<double>> values(asked.size(), std::vector<double>(trials));
    Draws draws(seed);
    for (std::size_t t = 0; t < trials; ++t) {
        const Five five = trial(places, model, draws);
        for (std::size_t i = 0; i < asked.size(); ++i) values[i][t] = five[asked[i]];
    }
    std::vector<SimulatedParameter> simulated;
    for (std::size_t i = 0; i < asked.size(); ++i)
        simulated.push_back({std::string(five_names[asked[i]]), summary(std::move(values[i]), coverage)});
    return simulated;
}

MonteCarloResult compare_with_first_order(const Simulated& simulated, Deviation value, Deviation standard, Deviation expanded,
                                          const document::MonteCarloRequest& request) {
    const auto unit = base_unit(value.dimension());
    const auto of = [&](double base) { return Deviation(base, unit); };
    const double bias = simulated.mean - value.in(unit);
    const Interval shifted{simulated.symmetric.low - bias, simulated.symmetric.high - bias};
    const Validation validation = validate(value.in(unit), expanded.in(unit), standard.in(unit), shifted, 2);
    return {request.trials,   request.seed, of(simulated.standard),   of(shifted.low),
            of(shifted.high), of(bias),     of(validation.tolerance), validation.validated};
}

}  // namespace wayfolio::evaluate
