#include "evaluate/review/readings/repeats.hpp"

#include "evaluate/numbers/statistics.hpp"
#include "evaluate/series/targets.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace wayfolio::evaluate {
namespace {

/// Decimals beyond which readings are taken for computed numbers.
constexpr int most_decimals = 6;

/// Of all numbers that readings are written as: the largest step that all are multiples of.
double step_of(const document::Series& series) {
    int decimals = 0;
    double scale = 1;  // ten to the decimals
    std::vector<double> values;
    for (const auto& run : series.runs)
        for (const auto& reading : run.deviations) {
            if (!reading) continue;
            values.push_back(std::abs(reading->in(series.unit)));
            const auto whole = [&] { return std::abs(values.back() * scale - std::round(values.back() * scale)); };
            while (decimals < most_decimals && whole() > 1e-9 * std::max(1.0, values.back() * scale)) scale = std::pow(10, ++decimals);
        }
    long long common = 0;
    for (const double value : values) common = std::gcd(common, std::llround(std::min(value, 1e9) * scale));
    const double step = static_cast<double>(std::max(common, 1LL)) / scale;
    return in_base_unit(Deviation(step, series.unit));
}

/// Standard deviation of normal readings from the median of their absolute values: 1.4826 times that (Hampel, J. Amer. Statist. Assoc.
/// 69 (1974) 383 [from memory]); one run or target that is wrong does not move it.
double robust_scatter(const Runs& runs) {
    std::vector<double> all;
    double rows = 0;
    for (const auto& run : runs) {
        const double middle = mean(run.places);
        for (std::size_t i = 0; i < run.places.size(); ++i)
            all.push_back(std::abs(run.residuals[i] - run.offset - run.slope.value_or(0) / 1000 * (run.places[i] - middle)));
        rows += run.slope ? 2 : 1;
    }
    double groups = 0;
    for (const auto& members : sharing(runs)) groups += (members.positive > 0 ? 1.0 : 0.0) + (members.negative > 0 ? 1.0 : 0.0);
    const double n = static_cast<double>(all.size()), nu = n - groups - rows;
    if (nu < 3) return 0;
    const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
    std::nth_element(all.begin(), middle, all.end());
    return 1.4826 * *middle * std::sqrt(n / nu);
}

/// Of normal readings the share within `step` about `off` from their mean.
double share_on_step(double off, double step, double scatter) {
    const auto below = [&](double value) { return 0.5 * std::erfc(-value / scatter / std::sqrt(2.0)); };
    return below(std::abs(off) + step / 2) - below(std::abs(off) - step / 2);
}

void add_copied_runs(std::vector<RepeatedReadings>& found, const Runs& runs, double by_chance) {
    constexpr std::size_t fewest_readings = 5;
    const double pairs = static_cast<double>(runs.size()) * (static_cast<double>(runs.size()) - 1) / 2;
    std::map<std::pair<std::vector<std::size_t>, std::vector<double>>, std::size_t> seen;
    for (const auto& run : runs) {
        const auto [first, is_new] = seen.try_emplace({run.ranks, run.readings}, run.run);
        const double p = pairs * std::pow(by_chance, static_cast<double>(run.readings.size()));
        if (!is_new && run.readings.size() >= fewest_readings && p < repeat_level)
            found.push_back({.kind = RepeatedReadings::Kind::Run,
                             .run = run.run,
                             .earlier = first->second,
                             .count = run.readings.size(),
                             .value = 0,
                             .p = p});
    }
}

/// The first reading of the most unlikely row of equal numbers of a run, in the order of travel.
void add_stuck_sensor(std::vector<RepeatedReadings>& found, const RunResiduals& run, const Sharing& members, const Resolution& resolution,
                      double readings) {
    constexpr double doubt = 5;  // a number far from where the others are is not taken for less likely than this: the run may be off
    const double by_chance = resolution.same_by_chance();
    const auto way = travelled(run);
    std::optional<RepeatedReadings> best;
    for (std::size_t first = 0, next = 1; first < way.size(); first = next, ++next) {
        double p = readings;
        for (; next < way.size() && run.readings[way[next]] == run.readings[way[first]]; ++next) {
            const double n = static_cast<double>(members[run.ranks[way[next]]][run.approach]);
            if (n < 2) return;
            const double off = run.residuals[way[next]] * n / (n - 1), scatter = resolution.scatter * std::sqrt(n / (n - 1));
            p *= std::clamp(share_on_step(off, resolution.step, scatter), by_chance / doubt, by_chance);
        }
        constexpr std::size_t fewest = 4;
        if (next - first < fewest || p >= repeat_level || (best && p >= best->p)) continue;
        best = RepeatedReadings{.kind = RepeatedReadings::Kind::Sensor,
                                .run = run.run,
                                .target = run.targets[way[first]],
                                .count = next - first,
                                .value = run.readings[way[first]],
                                .p = p};
    }
    if (best) found.push_back(*best);
}

/// The readings of one target.
struct AtTarget {
    std::size_t target = 0;
    double place = 0;
    ByApproach<std::vector<double>> readings{};
};

bool all_equal(const std::vector<double>& values) {
    return std::all_of(values.begin(), values.end(), [&](double value) { return value == values.front(); });
}

void add_constant_target(std::vector<RepeatedReadings>& found, const AtTarget& at, bool end, double by_chance, double targets) {
    constexpr std::size_t fewest = 3;
    const auto& [up, down] = at.readings;
    const auto told = [&](const std::vector<double>& values, std::size_t count, std::optional<Approach> approach) {
        const double p = targets * std::pow(by_chance, static_cast<double>(count - 1));
        if (p < repeat_level)
            found.push_back({.kind = RepeatedReadings::Kind::Target,
                             .target = at.target,
                             .approach = approach,
                             .count = count,
                             .value = values.front(),
                             .p = p});
    };
    if (!up.empty() && !down.empty() && all_equal(up) && all_equal(down) && up.front() == down.front() && up.size() + down.size() >= fewest)
        return told(up, up.size() + down.size(), std::nullopt);
    for (const Approach approach : document::both_approaches) {
        const auto& values = at.readings[approach];
        if (values.size() < fewest || !all_equal(values) || ((end || at.place == 0) && values.front() == 0)) continue;
        const bool only = at.readings[approach == Approach::Positive ? Approach::Negative : Approach::Positive].empty();
        told(values, values.size(), only ? std::nullopt : std::optional(approach));
    }
}

void add_constant_targets(std::vector<RepeatedReadings>& found, const Runs& runs, double by_chance) {
    std::vector<AtTarget> targets(sharing(runs).size());
    for (const auto& run : runs)
        for (std::size_t i = 0; i < run.ranks.size(); ++i) {
            AtTarget& at = targets[run.ranks[i]];
            at.target = run.targets[i];
            at.place = run.places[i];
            at.readings[run.approach].push_back(run.readings[i]);
        }
    for (std::size_t rank = 0; rank < targets.size(); ++rank)
        add_constant_target(found, targets[rank], rank == 0 || rank + 1 == targets.size(), by_chance,
                            2 * static_cast<double>(targets.size()));
}

}  // namespace

double Resolution::same_by_chance() const { return scatter > 0 ? share_on_step(0, step, scatter) : 1; }

Resolution resolution_of(const document::Series& series, const Runs& runs) { return {step_of(series), robust_scatter(runs)}; }

std::vector<RepeatedReadings> find_repeats(const document::Series& series, const Runs& runs) {
    std::vector<RepeatedReadings> found;
    if (runs.empty()) return found;
    const Resolution resolution = resolution_of(series, runs);
    if (!(resolution.scatter > 0)) return found;
    const Sharing members = sharing(runs);
    double readings = 0;
    for (const auto& run : runs) readings += static_cast<double>(run.readings.size());
    add_copied_runs(found, runs, resolution.same_by_chance());
    for (const auto& run : runs) add_stuck_sensor(found, run, members, resolution, readings);
    add_constant_targets(found, runs, resolution.same_by_chance());
    return found;
}

}  // namespace wayfolio::evaluate
