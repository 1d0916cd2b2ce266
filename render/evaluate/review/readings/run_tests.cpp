#include "evaluate/review/readings/fault_tests.hpp"

#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "evaluate/numbers/trend.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace wayfolio::evaluate {
namespace {

/// A value per run with the order and direction of the runs that have one.
struct Sequence {
    std::vector<double> when, value;
    std::vector<std::size_t> group;  ///< 0, 1: the directions, in order of appearance
    std::vector<std::size_t> run;    ///< places in Runs
    std::size_t groups = 0;

    [[nodiscard]] double duration() const {
        const auto [first, last] = std::minmax_element(when.begin(), when.end());
        return *last - *first;
    }
};

Sequence sequence_of(const Runs& runs, const std::function<std::optional<double>(const RunResiduals&)>& value) {
    Sequence sequence;
    std::vector<Approach> seen;
    for (std::size_t k = 0; k < runs.size(); ++k) {
        const auto v = value(runs[k]);
        if (!v) continue;
        auto group = std::find(seen.begin(), seen.end(), runs[k].approach);
        if (group == seen.end()) group = seen.insert(seen.end(), runs[k].approach);
        sequence.when.push_back(runs[k].when);
        sequence.value.push_back(*v);
        sequence.group.push_back(static_cast<std::size_t>(group - seen.begin()));
        sequence.run.push_back(k);
    }
    sequence.groups = seen.size();
    return sequence;
}

Sequence offsets_of(const Runs& runs) {
    return sequence_of(runs, [](const auto& run) { return run.offset; });
}

std::optional<double> smaller_rank_p(const Sequence& sequence) {
    std::optional<double> smallest;
    for (const std::size_t direction : {0u, 1u}) {
        std::vector<std::pair<double, double>> ordered;
        for (std::size_t i = 0; i < sequence.value.size(); ++i)
            if (sequence.group[i] == direction) ordered.emplace_back(sequence.when[i], sequence.value[i]);
        std::stable_sort(ordered.begin(), ordered.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
        std::vector<double> values;
        for (const auto& entry : ordered) values.push_back(entry.second);
        if (const auto rank = rank_trend(values)) smallest = std::min(smallest.value_or(1), rank->p);
    }
    return smallest;
}

double two_sided_p(double t, double nu) {
    return 2 * boost::math::cdf(boost::math::complement(boost::math::students_t(nu), std::abs(t)));
}

/// Readings of a run, on average.
double readings_per_run(const Runs& runs) {
    return std::accumulate(runs.begin(), runs.end(), 0.0,
                           [](double sum, const auto& run) { return sum + static_cast<double>(run.places.size()); }) /
           static_cast<double>(runs.size());
}

/// Adds `by(run, place)` to every reading and centres again.
template <class By>
void add_to_readings(Runs& runs, By&& by) {
    for (auto& run : runs)
        for (std::size_t i = 0; i < run.readings.size(); ++i) run.readings[i] += by(run, run.places[i]);
    centre(runs);
}

const NotEvaluated no_trend{"too few runs for a trend"}, no_scatter{"the runs do not vary"};

}  // namespace

Tried<RunTrend> try_drift(const Runs& runs, bool timed) {
    const Sequence offsets = offsets_of(runs);
    const auto line = linear_trend(offsets.when, offsets.value, offsets.group);
    if (!line || line->degrees_of_freedom < 2) return {.hint = no_trend};
    if (!line->p) return {.hint = no_scatter};
    const double spread = std::pow(line->s / line->slope_standard, 2);  // of the times about their group's mean
    return {.hint = RunTrend{line->slope * offsets.duration(), timed ? 60 * line->slope : 0, *line->p, line->degrees_of_freedom,
                             smaller_rank_p(offsets)},
            .squares = readings_per_run(runs) * line->slope * line->slope * spread,
            .take_out = [slope = line->slope](Runs& all) {
                add_to_readings(all, [&](const auto& run, double) { return -slope * run.when; });
            }};
}

namespace {

/// Growth about one place, from the trends of the runs' levels and slopes in the lengths of their unit vectors.
struct GrowthAbout {
    double per_time;  ///< in µm per mm and unit of time
    double t, p, nu, squares;
};

/// Both trends estimate the growth, with variances of their own: degrees of freedom by Welch and Satterthwaite (GUM G.2b).
GrowthAbout growth_about(const LinearTrend& level, const LinearTrend& slope, double level_length, double slope_length, double lever) {
    const double a = level_length * lever, b = slope_length, norm = a * a + b * b;
    GrowthAbout growth{};
    growth.per_time = (a * level_length * level.slope + b * slope_length * slope.slope) / norm;
    const double from_level = std::pow(a * level_length * level.slope_standard / norm, 2),
                 from_slope = std::pow(b * slope_length * slope.slope_standard / norm, 2);
    growth.t = growth.per_time / std::sqrt(from_level + from_slope);
    growth.nu = std::pow(from_level + from_slope, 2) /
                (from_level * from_level / level.degrees_of_freedom + from_slope * from_slope / slope.degrees_of_freedom);
    growth.p = two_sided_p(growth.t, growth.nu);
    growth.squares = growth.per_time * growth.per_time * norm * std::pow(slope.s / slope.slope_standard, 2);
    return growth;
}

}  // namespace

Tried<RunTrend> try_growth(const Runs& runs, bool timed) {
    const Sequence slopes = sequence_of(runs, [](const auto& run) { return run.slope; });
    const Sequence offsets = sequence_of(runs, [](const auto& run) { return run.slope ? std::optional(run.offset) : std::nullopt; });
    const auto slope = linear_trend(slopes.when, slopes.value, slopes.group),
               level = linear_trend(offsets.when, offsets.value, offsets.group);
    if (!slope || slope->degrees_of_freedom < 2) return {.hint = no_trend};
    if (!slope->p || !level->p) return {.hint = no_scatter};
    std::vector<double> places;
    for (const auto& run : runs) places.insert(places.end(), run.places.begin(), run.places.end());
    const auto [first, last] = std::minmax_element(places.begin(), places.end());
    const double middle = mean(places), readings = readings_per_run(runs);
    double spread = 0;
    for (const double place : places) spread += (place - middle) * (place - middle);
    LinearTrend per_mm = *slope;
    for (double* value : {&per_mm.slope, &per_mm.slope_standard, &per_mm.s}) *value /= 1000;
    std::optional<GrowthAbout> best;
    double about = middle;
    constexpr double places_tried = 3;
    for (const double place : {middle, *first, *last}) {
        const auto growth =
            growth_about(*level, per_mm, std::sqrt(readings), std::sqrt(spread / static_cast<double>(runs.size())), middle - place);
        // The one that explains most; one that is not significant is none, however much it explains.
        if (best && (growth.squares <= best->squares || growth.p > best->p * 10)) continue;
        best = growth;
        about = place;
    }
    return {.hint = RunTrend{1000 * best->per_time * slopes.duration(), timed ? 60'000 * best->per_time : 0,
                             std::min(1.0, places_tried * best->p), best->nu, smaller_rank_p(slopes)},
            .squares = best->squares,
            .choices = places_tried,
            .take_out = [growth = best->per_time, about](Runs& all) {
                add_to_readings(all, [&](const auto& run, double place) { return -growth * run.when * (place - about); });
            }};
}

Tried<RunApart> try_apart(const Runs& runs) {
    const Sequence all = offsets_of(runs);
    const double nu = static_cast<double>(all.value.size()) - static_cast<double>(all.groups) - 1;
    std::array<double, 2> members{};
    for (const std::size_t group : all.group) members[group] += 1;
    std::optional<std::size_t> farthest;
    double most = 0;
    for (std::size_t i = 0; i < all.value.size(); ++i) {
        const double n = members[all.group[i]];
        if (n < 2 || all.value[i] * all.value[i] * n / (n - 1) <= most) continue;
        most = all.value[i] * all.value[i] * n / (n - 1);
        farthest = i;
    }
    if (!farthest || nu < 2) return {.hint = NotEvaluated{"too few runs, or runs that do not vary"}};
    const double n = members[all.group[*farthest]], by = all.value[*farthest] * n / (n - 1);
    const double left = std::max(dot(all.value, all.value) - most, 1e-24 * most);
    const double t = std::copysign(std::sqrt(most * nu / left), by);
    const std::size_t place = all.run[*farthest], run = runs[place].run;
    return {.hint = RunApart{run, by, t, std::min(1.0, static_cast<double>(all.value.size()) * two_sided_p(t, nu))},
            .squares = most * static_cast<double>(runs[place].places.size()),
            .choices = static_cast<double>(all.value.size()),
            .take_out = [run, by](Runs& changed) {
                add_to_readings(changed, [&](const auto& each, double) { return each.run == run ? -by : 0; });
            }};
}

Tried<RunJump> try_jump(const Runs& runs) {
    const Sequence all = offsets_of(runs);
    const auto order = in_time(runs);  // every run has an offset: its place is the same in `all`
    constexpr std::size_t fewest = 2;  // on either side: one alone is a run apart
    const double nu = static_cast<double>(order.size()) - static_cast<double>(all.groups) - 1;
    if (order.size() < 2 * fewest + 1 || nu < 2) return {.hint = NotEvaluated{"too few runs for a jump"}};
    std::array<double, 2> members{}, after{}, sum_after{};
    for (const std::size_t group : all.group) members[group] += 1;
    double most = 0, by = 0;
    std::size_t place = 0;
    for (std::size_t cut = order.size(); cut-- > fewest;) {
        const std::size_t group = all.group[order[cut]];
        after[group] += 1;
        sum_after[group] += all.value[order[cut]];
        double steps = 0;  // sum of squares of the step about its mean in each direction
        for (const std::size_t g : {0U, 1U})
            if (members[g] > 0) steps += after[g] * (members[g] - after[g]) / members[g];
        const double along = sum_after[0] + sum_after[1];
        if (cut > order.size() - fewest || !(steps > 0) || along * along / steps <= most) continue;
        most = along * along / steps;
        by = along / steps;
        place = cut;
    }
    if (!(most > 0)) return {.hint = no_scatter};
    const double t = std::copysign(std::sqrt(most * nu / std::max(dot(all.value, all.value) - most, 1e-24 * most)), by);
    const double places = static_cast<double>(order.size() - 2 * fewest + 1);
    std::vector<std::size_t> later;
    for (std::size_t i = place; i < order.size(); ++i) later.push_back(runs[all.run[order[i]]].run);
    const std::size_t first = later.front();
    std::sort(later.begin(), later.end());
    return {.hint = RunJump{first, by, t, std::min(1.0, places * two_sided_p(t, nu))},
            .squares = most * readings_per_run(runs),
            .choices = places,
            .take_out = [later, by](Runs& changed) {
                add_to_readings(changed, [&](const auto& run, double) {
                    return std::binary_search(later.begin(), later.end(), run.run) ? -by : 0;
                });
            }};
}

}  // namespace wayfolio::evaluate
