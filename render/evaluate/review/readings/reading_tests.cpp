#include "evaluate/review/readings/fault_tests.hpp"

#include "evaluate/numbers/f_test.hpp"
#include "evaluate/numbers/outliers.hpp"
#include "evaluate/numbers/statistics.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wayfolio::evaluate {
namespace {

/// The unit vectors of one run: its level, and a slope about the middle of its places.
struct UnitVectors {
    explicit UnitVectors(const RunResiduals& run) : level(1 / std::sqrt(static_cast<double>(run.places.size()))), slope(run.places) {
        const double middle = mean(slope);
        for (double& place : slope) place -= middle;
        const double length = std::sqrt(dot(slope, slope));
        for (double& place : slope) place = length > 0 ? place / length : 0;
    }
    double level;
    std::vector<double> slope;
};

/// Of sets of runs that scatter no more than their readings, one in ten seems to by chance.
constexpr double scatters_more = 0.1;

std::array<double, 2> own_share(const WithinRuns& within, std::size_t run, const std::array<double, 2>& squares, double members,
                                double nu, FTest& test) {
    // Fewer than three degrees of freedom tell nothing of how runs scatter: level and slope are then the run's own.
    if (nu - 1 < 3) return {1, 1};
    std::array<double, 2> own{};
    for (const std::size_t c : {0U, 1U}) {
        const double mine = within.coordinates[run][c] * within.coordinates[run][c] * members / (members - 1);
        const double F = std::max(0.0, squares[c] - mine) / (nu - 1) / (within.squares / within.nu);
        if (F > 1 && test.stands_out(F)) own[c] = 1;
    }
    return own;
}

/// Sums of a pattern over some readings of a run: with the residuals, with itself and with the unit vectors.
struct PatternSums {
    double residuals = 0, itself = 0, level = 0, slope = 0;

    void add(const RunResiduals& run, const UnitVectors& unit, std::size_t i, double weight) {
        residuals += weight * run.residuals[i];
        itself += weight * weight;
        level += weight * unit.level;
        slope += weight * unit.slope[i];
    }
};

/// A pattern fitted to a run.
struct PatternFit {
    double t = 0, size = 0, squares = 0;  ///< `squares`: see Tried
};

/// Least squares with the run's own level and slope as far as it has them; the scatter is that within the runs, less what the pattern
/// takes of it.
PatternFit fit_pattern(const PatternSums& sums, const WithinRuns& within, std::size_t run, double members) {
    const auto& [level, slope] = within.coordinates[run];
    const auto& own = within.own[run];
    const double share = 1 - 1 / members;  // what the mean of the runs leaves of a fault in one of them
    const double along = sums.residuals - own[0] * sums.level * level - own[1] * sums.slope * slope;
    const double length = (sums.itself - own[0] * sums.level * sums.level - own[1] * sums.slope * sums.slope) * share;
    const double along_within = sums.residuals - sums.level * level - sums.slope * slope;
    const double length_within = (sums.itself - sums.level * sums.level - sums.slope * sums.slope) * share;
    constexpr double nothing = 1e-9;
    if (!(length > nothing * sums.itself)) return {};
    const double taken = length_within > nothing * sums.itself ? along_within * along_within / length_within : 0;
    const double variance = std::max(within.squares - taken, 1e-24 * along * along) / (within.nu - 1);
    return {.t = along / std::sqrt(length * variance),
            .size = along / length,
            .squares = sums.residuals * sums.residuals / (sums.itself * share)};
}

double upper_tail(double t, double nu) { return boost::math::cdf(boost::math::complement(boost::math::students_t(nu), t)); }

double member_count(const Runs& runs, Approach approach) {
    return static_cast<double>(std::count_if(runs.begin(), runs.end(), [&](const auto& run) { return run.approach == approach; }));
}

const NotEvaluated too_few_within{"too few runs or targets, or readings that do not vary"};

}  // namespace

std::optional<WithinRuns> within_runs(const Runs& runs) {
    const ByApproach<double> members{member_count(runs, Approach::Positive), member_count(runs, Approach::Negative)};
    if (members.positive == 1 || members.negative == 1) return std::nullopt;
    const double directions = (members.positive > 0 ? 1.0 : 0.0) + (members.negative > 0 ? 1.0 : 0.0);
    const double nu = static_cast<double>(runs.size()) - directions;  // of either coordinate
    WithinRuns within{};
    std::array<double, 2> squares{};
    double readings = 0, groups = 0;
    for (const auto& run : runs) {
        const UnitVectors unit(run);
        within.coordinates.push_back(
            {unit.level * std::accumulate(run.residuals.begin(), run.residuals.end(), 0.0), dot(unit.slope, run.residuals)});
        const auto& [level, slope] = within.coordinates.back();
        within.squares += dot(run.residuals, run.residuals) - level * level - slope * slope;
        squares[0] += level * level;
        squares[1] += slope * slope;
        readings += static_cast<double>(run.places.size());
    }
    for (const auto& members_here : sharing(runs))
        groups += (members_here.positive > 0 ? 1.0 : 0.0) + (members_here.negative > 0 ? 1.0 : 0.0);
    within.nu = readings - groups - 2 * nu;
    if (within.nu < 3 || !(within.squares > 1e-20 * (squares[0] + squares[1])) || !(within.squares > 0)) return std::nullopt;
    FTest test(nu - 1, within.nu, scatters_more);
    for (std::size_t k = 0; k < runs.size(); ++k) within.own.push_back(own_share(within, k, squares, members[runs[k].approach], nu, test));
    return within;
}

namespace {

/// A reading that fits its target when its decimal point is moved. Only where the mean is clear of zero, or any reading would fit.
std::optional<int> decimal_slip(const RunResiduals& run, std::size_t i, double s, double members) {
    const double centre = run.readings[i] - run.residuals[i] * members / (members - 1);  // of the other runs
    constexpr double clear = 5, fits = 3.3;  // of a normal reading in a thousand
    if (std::abs(centre) < clear * s) return std::nullopt;
    for (const int places : {1, -1, 2, -2, 3, -3})
        if (std::abs(run.readings[i] / std::pow(10, places) - centre) < fits * s * std::sqrt(members / (members - 1))) return places;
    return std::nullopt;
}

}  // namespace

namespace {

/// The readings in groups that share a mean, less what their run has of its own.
struct GroupedReadings {
    struct Member {
        std::size_t run, place;  ///< places in Runs and in the run
    };
    std::vector<Group> groups{};
    std::vector<std::vector<Member>> members{};
    double spent = 0;  ///< degrees of freedom that the runs' own levels and slopes took
};

GroupedReadings grouped(const Runs& runs, const std::optional<WithinRuns>& within) {
    GroupedReadings all;
    all.groups.resize(2 * sharing(runs).size());
    all.members.resize(all.groups.size());
    for (Group& group : all.groups) group.reserve(runs.size());
    for (auto& members : all.members) members.reserve(runs.size());
    for (std::size_t k = 0; k < runs.size(); ++k) {
        const auto own = within ? within->own[k] : std::array<double, 2>{};
        const auto coordinates = within ? within->coordinates[k] : std::array<double, 2>{};
        const UnitVectors unit(runs[k]);
        all.spent += (own[0] + own[1]) * (1 - 1 / member_count(runs, runs[k].approach));
        for (std::size_t i = 0; i < runs[k].places.size(); ++i) {
            const std::size_t group = 2 * runs[k].ranks[i] + (runs[k].approach == Approach::Positive ? 0 : 1);
            all.groups[group].push_back(runs[k].residuals[i] - own[0] * unit.level * coordinates[0] -
                                        own[1] * unit.slope[i] * coordinates[1]);
            all.members[group].push_back({k, i});
        }
    }
    return all;
}

}  // namespace

Tried<OutlierHint> try_outlier(const Runs& runs, const std::optional<WithinRuns>& within) {
    const GroupedReadings all = grouped(runs, within);
    const auto farthest = farthest_reading(all.groups, all.spent);
    if (!farthest) return {.hint = NotEvaluated{"too few readings, or readings that do not vary"}};
    const auto& member = all.members[farthest->group][farthest->place];
    const RunResiduals& run = runs[member.run];
    const double n = static_cast<double>(all.groups[farthest->group].size());
    // The scatter of the others: of a gross slip next to nothing of the pooled one is theirs.
    const double others = (farthest->nu - farthest->T * farthest->T) / (farthest->nu - 1);
    OutlierHint hint{run.run,     run.targets[member.place], run.residuals[member.place], farthest->T,
                     farthest->p, farthest->readings,        farthest->nu};
    hint.decimal_slip = decimal_slip(run, member.place, farthest->s_pooled * std::sqrt(std::max(0.0, others)), n);
    const std::size_t rank = run.ranks[member.place], number = run.run;
    return {.hint = hint,
            .squares = run.residuals[member.place] * run.residuals[member.place] * n / (n - 1),
            .choices = farthest->readings,
            .take_out = [rank, number](Runs& changed) {
                for (auto& each : changed) {
                    const auto at = std::lower_bound(each.ranks.begin(), each.ranks.end(), rank);
                    if (each.run != number || at == each.ranks.end() || *at != rank) continue;
                    const auto place = at - each.ranks.begin();
                    each.places.erase(each.places.begin() + place);
                    each.targets.erase(each.targets.begin() + place);
                    each.readings.erase(each.readings.begin() + place);
                    each.ranks.erase(at);
                }
                centre(changed);
            }};
}

namespace {

/// Two readings of a run exchanged: how far they move, in the direction that the means of the targets ask for.
struct ExchangedPair {
    std::size_t run = 0, first = 0, second = 0;  ///< places in Runs and in the run
    double difference = 0;                       ///< of the means of the other runs
    double worst = 0;                            ///< how far the worse of both is off its target when they are exchanged
    PatternFit fit{};
};

ExchangedPair exchanged(const Runs& runs, const WithinRuns& within, std::size_t k, std::size_t i, std::size_t j, const UnitVectors& unit,
                        double members) {
    const RunResiduals& run = runs[k];
    const auto centre_at = [&](std::size_t place) { return run.readings[place] - run.residuals[place] * members / (members - 1); };
    ExchangedPair pair{.run = k, .first = i, .second = j, .difference = centre_at(j) - centre_at(i)};
    pair.worst = std::max(std::abs(run.readings[i] - centre_at(j)), std::abs(run.readings[j] - centre_at(i)));
    PatternSums sums;
    sums.add(run, unit, i, pair.difference);
    sums.add(run, unit, j, -pair.difference);
    pair.fit = fit_pattern(sums, within, k, members);
    return pair;
}

/// The readings of a run farthest off, which an exchange worth telling must be among.
std::vector<std::size_t> farthest_off(const RunResiduals& run) {
    constexpr std::size_t most = 12;
    std::vector<std::size_t> order(run.places.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const std::size_t kept = std::min(most, order.size());
    std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(kept), order.end(),
                      [&](std::size_t a, std::size_t b) { return std::abs(run.residuals[a]) > std::abs(run.residuals[b]); });
    order.resize(kept);
    std::sort(order.begin(), order.end());
    return order;
}

/// Both readings of an exchange must fit then, within so many standard deviations: of normal readings one in a thousand does not.
constexpr double fits_exchanged = 3.3;

}  // namespace

Tried<ReadingsSwapped> try_swapped(const Runs& runs, const std::optional<WithinRuns>& within) {
    if (!within) return {.hint = too_few_within};
    std::optional<ExchangedPair> best;
    double pairs = 0;
    for (std::size_t k = 0; k < runs.size(); ++k) {
        const UnitVectors unit(runs[k]);
        const double members = member_count(runs, runs[k].approach), m = static_cast<double>(runs[k].places.size());
        pairs += m * (m - 1) / 2;
        const auto candidates = farthest_off(runs[k]);
        for (const std::size_t i : candidates)
            for (const std::size_t j : candidates) {
                if (i >= j) continue;
                const auto pair = exchanged(runs, *within, k, i, j, unit, members);
                const double s = std::sqrt(within->squares / within->nu * members / (members - 1));
                if (pair.worst < fits_exchanged * s && (!best || pair.fit.t > best->fit.t)) best = pair;
            }
    }
    // Where no two readings ask for it there is nothing to be judged: p is 1.
    if (!best) return {.hint = ReadingsSwapped{runs.front().run, {0, 0}, 0, 0, 1}};
    const RunResiduals& run = runs[best->run];
    const double p = std::min(1.0, pairs * upper_tail(best->fit.t, within->nu - 1));
    return {.hint = ReadingsSwapped{run.run, {run.targets[best->first], run.targets[best->second]}, best->difference, best->fit.t, p},
            .squares = best->fit.squares,
            .choices = pairs,
            .take_out = [number = run.run, ranks = std::array{run.ranks[best->first], run.ranks[best->second]}](Runs& changed) {
                for (auto& each : changed) {
                    if (each.run != number) continue;
                    const auto place = [&](std::size_t rank) {
                        return std::lower_bound(each.ranks.begin(), each.ranks.end(), rank) - each.ranks.begin();
                    };
                    std::swap(each.readings[static_cast<std::size_t>(place(ranks[0]))],
                              each.readings[static_cast<std::size_t>(place(ranks[1]))]);
                }
                centre(changed);
            }};
}

Tried<MissedCount> try_missed_count(const Runs& runs, const std::optional<WithinRuns>& within) {
    if (!within) return {.hint = too_few_within};
    struct Step {
        std::size_t run = 0, from = 0;  ///< places in Runs and in the order of travel
        PatternFit fit{};
    };
    std::optional<Step> best;
    double places = 0;
    constexpr std::size_t fewest = 2;  // readings on that are off: one alone is an outlier
    for (std::size_t k = 0; k < runs.size(); ++k) {
        const UnitVectors unit(runs[k]);
        const auto order = travelled(runs[k]);
        const double members = member_count(runs, runs[k].approach);
        PatternSums sums;
        for (std::size_t from = order.size(); from-- > 1;) {
            sums.add(runs[k], unit, order[from], 1);
            if (from + fewest > order.size()) continue;
            places += 1;
            const Step step{k, from, fit_pattern(sums, *within, k, members)};
            if (!best || std::abs(step.fit.t) > std::abs(best->fit.t)) best = step;
        }
    }
    if (!best) return {.hint = too_few_within};
    const RunResiduals& run = runs[best->run];
    const auto order = travelled(run);
    const double p = std::min(1.0, 2 * places * upper_tail(std::abs(best->fit.t), within->nu - 1));
    return {.hint = MissedCount{run.run, run.targets[order[best->from]], best->fit.size, /*stays=*/false, best->fit.t, p},
            .squares = best->fit.squares,
            .choices = places,
            .take_out = [number = run.run, from = best->from, by = best->fit.size](Runs& changed) {
                for (auto& each : changed) {
                    if (each.run != number) continue;
                    const auto way = travelled(each);
                    for (std::size_t i = from; i < way.size(); ++i) each.readings[way[i]] -= by;
                }
                centre(changed);
            }};
}

}  // namespace wayfolio::evaluate
