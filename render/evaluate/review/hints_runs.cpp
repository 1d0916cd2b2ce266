#include "evaluate/review/hints.hpp"

#include "evaluate/numbers/outliers.hpp"
#include "evaluate/numbers/least_squares.hpp"
#include "evaluate/numbers/trend.hpp"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

namespace wayfolio::evaluate {
namespace {

/// A value per run with the order and direction of the runs that have one.
struct Sequence {
    std::vector<double> when, value;
    std::vector<std::size_t> group;  ///< 0, 1: the directions, in order of appearance
    std::vector<std::size_t> run;
};

Sequence sequence_of(const std::vector<RunResiduals>& runs,
                     const std::function<std::optional<double>(const RunResiduals&)>& value) {
    Sequence sequence;
    std::vector<Approach> seen;
    for (const auto& run : runs) {
        const auto v = value(run);
        if (!v) continue;
        auto group = std::find(seen.begin(), seen.end(), run.approach);
        if (group == seen.end()) group = seen.insert(seen.end(), run.approach);
        sequence.when.push_back(run.when);
        sequence.value.push_back(*v);
        sequence.group.push_back(static_cast<std::size_t>(group - seen.begin()));
        sequence.run.push_back(run.run);
    }
    return sequence;
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

Evaluated<RunTrend> trend_of(const Sequence& sequence, bool timed) {
    const auto line = linear_trend(sequence.when, sequence.value, sequence.group);
    if (!line || line->degrees_of_freedom < 2) return NotEvaluated{"too few runs for a trend"};
    if (!line->p) return NotEvaluated{"the runs do not scatter"};
    const auto [first, last] = std::minmax_element(sequence.when.begin(), sequence.when.end());
    return RunTrend{line->slope * (*last - *first), timed ? 60 * line->slope : 0, *line->p, line->degrees_of_freedom,
                    smaller_rank_p(sequence)};
}

}  // namespace

Evaluated<RunTrend> drift_over_runs(const std::vector<RunResiduals>& runs, bool timed) {
    return trend_of(sequence_of(runs, [](const auto& run) { return run.offset; }), timed);
}

Evaluated<RunTrend> growth_over_runs(const std::vector<RunResiduals>& runs, bool timed) {
    return trend_of(sequence_of(runs, [](const auto& run) { return run.slope; }), timed);
}

namespace {

template <class T>
std::vector<T> without(std::vector<T> values, std::size_t place) {
    values.erase(values.begin() + static_cast<std::ptrdiff_t>(place));
    return values;
}

/// Run k against what the line through the other runs predicts for it.
std::optional<RunApart> against_others(const Sequence& all, std::size_t k) {
    const auto when = without(all.when, k), value = without(all.value, k);
    const auto group = without(all.group, k);
    const auto line = value.empty() ? std::nullopt : linear_trend(when, value, group);
    if (!line || line->degrees_of_freedom < 2 || !(line->s > 0)) return std::nullopt;
    double level = 0, middle = 0, members = 0;
    for (std::size_t i = 0; i < value.size(); ++i)
        if (group[i] == all.group[k]) {
            level += value[i];
            middle += when[i];
            members += 1;
        }
    if (members == 0) return std::nullopt;
    const double ahead = all.when[k] - middle / members;
    const double by = all.value[k] - level / members - line->slope * ahead;
    const double t = by / std::hypot(line->s * std::sqrt(1 + 1 / members), line->slope_standard * ahead);
    const boost::math::students_t distribution(line->degrees_of_freedom);
    const double single = 2 * boost::math::cdf(boost::math::complement(distribution, std::abs(t)));
    return RunApart{all.run[k], by, t, std::min(1.0, static_cast<double>(all.value.size()) * single)};
}

}  // namespace

Evaluated<RunApart> run_apart(const std::vector<RunResiduals>& runs) {
    const Sequence all = sequence_of(runs, [](const auto& run) { return run.offset; });
    std::optional<RunApart> farthest;
    for (std::size_t k = 0; k < all.value.size(); ++k) {
        const auto candidate = against_others(all, k);
        if (candidate && (!farthest || std::abs(candidate->t) > std::abs(farthest->t))) farthest = candidate;
    }
    if (!farthest) return NotEvaluated{"too few runs, or runs that do not scatter"};
    return *farthest;
}

Evaluated<OutlierHint> outlier_hint(const std::vector<RunResiduals>& runs) {
    struct Member {
        std::size_t run, target;
    };
    std::vector<std::pair<std::size_t, Approach>> keys;
    std::vector<Group> groups;
    std::vector<std::vector<Member>> members;
    for (const auto& run : runs)
        for (std::size_t i = 0; i < run.residuals.size(); ++i) {
            const std::pair key{run.targets[i], run.approach};
            auto found = std::find(keys.begin(), keys.end(), key);
            if (found == keys.end()) {
                found = keys.insert(keys.end(), key);
                groups.emplace_back();
                members.emplace_back();
            }
            const auto place = static_cast<std::size_t>(found - keys.begin());
            groups[place].push_back(run.residuals[i]);
            members[place].push_back({run.run, run.targets[i]});
        }
    const auto farthest = farthest_reading(groups);
    if (!farthest) return NotEvaluated{"too few readings, or readings that do not scatter"};
    const Member& member = members[farthest->group][farthest->place];
    return OutlierHint{member.run,         member.target, groups[farthest->group][farthest->place], farthest->T, farthest->p,
                       farthest->readings, farthest->nu};
}

}  // namespace wayfolio::evaluate
