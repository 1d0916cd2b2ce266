#include "evaluate/uncertainty/monte_carlo_axis.hpp"

#include "evaluate/series/targets.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::evaluate {
namespace {

/// One direction at one target, in base units.
struct Direction {
    double mean, s;
    std::size_t n;
};

struct Place {
    std::optional<Direction> positive, negative;
};

std::optional<Direction> direction_of(const TargetEvaluation& target, Approach approach) {
    const auto& [n, mean, s, R] = target.one_way[approach];
    if (!mean) return std::nullopt;
    return Direction{in_base_unit(*mean), s ? in_base_unit(*s) : 0, n};
}

struct Drawn {
    double mean, s;
};

class Readings {
public:
    Readings(const Direction& direction, double drift) : of_(direction), nu_(direction.n - 1), drift_(drift * std::sqrt(3.0)) {}

    Drawn operator()(Draws& draws) const {
        const auto n = static_cast<double>(of_.n), nu = static_cast<double>(nu_);
        double mean = of_.mean;
        if (of_.s > 0) mean += of_.s / std::sqrt(n) * draws.normal(0, 1) / std::sqrt(draws.chi_squared(nu_) / nu);
        if (drift_ > 0)
            for (std::size_t reading = 0; reading < of_.n; ++reading) mean += draws.rectangular(-drift_, drift_) / n;
        return {mean, of_.s > 0 ? of_.s * std::sqrt(draws.chi_squared(nu_) / nu) : 0};
    }

private:
    Direction of_;
    std::size_t nu_;
    double drift_;  ///< half-width
};

struct SimulatedPlace {
    std::optional<Readings> positive, negative;
};

struct Extent {
    double low = INFINITY, high = -INFINITY;
    void take(double from, double to) {
        low = std::min(low, from);
        high = std::max(high, to);
    }
    [[nodiscard]] double range() const { return high - low; }
};

/// In the order of simulated_parameters. Symbols and formulas as in positioning.hpp.
using Five = std::array<double, simulated_parameters.size()>;

struct Axis {
    std::vector<SimulatedPlace> places;
    SystematicDraw systematic;

    Five operator()(Draws& draws) const {
        const double moved = systematic(draws);
        Extent band, means, middle;
        double reversal = 0, repeatability = 0;
        for (const SimulatedPlace& place : places) {
            std::optional<Drawn> up, down;
            if (place.positive) up = (*place.positive)(draws);
            if (place.negative) down = (*place.negative)(draws);
            for (const auto& one : {up, down}) {
                if (!one) continue;
                band.take(one->mean - 2 * one->s, one->mean + 2 * one->s);
                means.take(one->mean, one->mean);
                repeatability = std::max(repeatability, 4 * one->s);
            }
            if (!up || !down) continue;
            const double B = std::abs(up->mean - down->mean), both = (up->mean + down->mean) / 2;
            middle.take(both, both);
            reversal = std::max(reversal, B);
            repeatability = std::max(repeatability, 2 * up->s + 2 * down->s + B);
        }
        // Repeatability and reversal are differences at one place.
        return {band.range() + moved, means.range() + moved, repeatability, reversal, middle.range() + moved};
    }
};

std::optional<NotEvaluated> obstacle_to_simulation(const std::vector<Place>& places, const SystematicDraw& systematic) {
    constexpr std::size_t enough = 4;
    if (places.size() < 2) return NotEvaluated{"fewer than two targets"};
    for (const Place& place : places)
        for (const auto& direction : {place.positive, place.negative})
            if (direction && direction->n < enough)
                return NotEvaluated{
                    "fewer than four readings at a target: the scaled t of a mean has no finite standard deviation (JCGM 101 6.4.9.4)"};
    if (systematic.endless())
        return NotEvaluated{"an input quantity has two degrees of freedom or fewer: its scaled t has no finite standard deviation"};
    return std::nullopt;
}

/// Which end of value ± U lies farther from the simulated one, and whether it is outside or inside of it.
MonteCarloResult::Printed printed_against(double value, double expanded, const Interval& simulated) {
    const double low_wider = simulated.low - (value - expanded), high_wider = value + expanded - simulated.high;
    const double worst = std::abs(low_wider) > std::abs(high_wider) ? low_wider : high_wider;
    return worst >= 0 ? MonteCarloResult::Printed::Wider : MonteCarloResult::Printed::Narrower;
}

}  // namespace

Evaluated<RepeatedTrials> simulate_axis(Targets targets, const AxisModel& model, std::size_t trials, std::uint64_t seed) {
    std::vector<Place> places;
    for (const auto& target : targets) {
        const Place place{direction_of(target, Approach::Positive), direction_of(target, Approach::Negative)};
        if (place.positive || place.negative) places.push_back(place);
    }
    Axis axis{.places = {}, .systematic = SystematicDraw(model.systematic)};
    if (auto obstacle = obstacle_to_simulation(places, axis.systematic)) return *std::move(obstacle);
    const auto readings = [&](const std::optional<Direction>& direction) {
        return direction ? std::optional(Readings(*direction, model.drift)) : std::nullopt;
    };
    for (const Place& place : places) axis.places.push_back({readings(place.positive), readings(place.negative)});
    return RepeatedTrials(trials, simulated_parameters.size(), seed, document::MonteCarloRequest::most_kept,
                          [axis = std::move(axis)](Draws& draws, std::span<double> into) { std::ranges::copy(axis(draws), into.begin()); });
}

Band band_of(Deviation value, Deviation expanded) {
    const auto unit = base_unit(value.dimension());
    return {value.in(unit), expanded.in(unit)};
}

MonteCarloResult compare_with_first_order(const Simulated& simulated, Deviation value, Deviation standard, Deviation expanded,
                                          const document::MonteCarloRequest& request) {
    const auto unit = base_unit(value.dimension());
    const auto of = [&](double number) { return Deviation(number, unit); };
    const double at = value.in(unit), U = expanded.in(unit), u = standard.in(unit);
    const auto trials = static_cast<double>(request.trials);
    const double shift = simulated.mean - at;
    const Interval moved{simulated.symmetric.low - shift, simulated.symmetric.high - shift};
    const Validation validation = validate(at, U, u, moved, 2);
    // Standard error of an end at p = 0.977: sqrt(p (1 - p)) over the density there. [derived, normal law]
    const double error = 2.7 * u / std::sqrt(trials);
    const bool coarse = error > validation.tolerance / 5;
    const double allowed = validation.tolerance + (coarse ? 3 * error : 0);
    const bool agrees = validation.d_low <= allowed && validation.d_high <= allowed;
    return {.trials = request.trials,
            .seed = request.seed,
            .expanded = expanded,
            .standard = of(simulated.standard),
            .low = of(moved.low),
            .high = of(moved.high),
            .shift = of(shift),
            .tolerance = of(validation.tolerance),
            .agrees = agrees,
            .printed = agrees ? std::nullopt : std::optional(printed_against(at, U, moved)),
            .covered = static_cast<double>(simulated.inside) / trials,
            .resolution = coarse ? std::optional(of(error)) : std::nullopt};
}

}  // namespace wayfolio::evaluate
