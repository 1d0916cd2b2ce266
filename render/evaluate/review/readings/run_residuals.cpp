#include "evaluate/review/readings/run_residuals.hpp"

#include "evaluate/surroundings/time.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "evaluate/series/targets.hpp"
#include "evaluate/numbers/least_squares.hpp"

#include <algorithm>
#include <numeric>

namespace wayfolio::evaluate {

bool has_times(const document::Series& series) {
    std::vector<double> times;
    for (const auto& run : series.runs) {
        const auto started = seconds_of(run.started);
        if (!started) return false;
        times.push_back(*started);
    }
    // A day without a time is the same for all of its runs and tells no order.
    return !times.empty() && *std::max_element(times.begin(), times.end()) > *std::min_element(times.begin(), times.end());
}

namespace {

void add_readings(RunResiduals& entry, const document::Run& run, const SeriesEvaluation& evaluated) {
    for (std::size_t rank = 0; rank < evaluated.targets.size(); ++rank) {
        const auto& target = evaluated.targets[rank];
        const auto reading = run.used(target.index);
        if (!reading) continue;
        entry.places.push_back(target.position.in(natural_unit(target.position.dimension())));
        entry.targets.push_back(target.index);
        entry.ranks.push_back(rank);
        entry.readings.push_back(in_base_unit(*reading + evaluated.air_at(target.position)));
    }
}

/// Takes from each residual the mean of those of its target and direction.
void take_means_out(Runs& runs, const Sharing& members) {
    std::vector<ByApproach<double>> sums(members.size());
    for (const auto& run : runs)
        for (std::size_t i = 0; i < run.ranks.size(); ++i) sums[run.ranks[i]][run.approach] += run.residuals[i];
    for (auto& run : runs)
        for (std::size_t i = 0; i < run.ranks.size(); ++i)
            run.residuals[i] -= sums[run.ranks[i]][run.approach] / static_cast<double>(members[run.ranks[i]][run.approach]);
}

}  // namespace

Sharing sharing(const Runs& runs) {
    std::size_t ranks = 0;
    for (const auto& run : runs)
        if (!run.ranks.empty()) ranks = std::max(ranks, run.ranks.back() + 1);
    Sharing members(ranks);
    for (const auto& run : runs)
        for (const std::size_t rank : run.ranks) members[rank][run.approach] += 1;
    return members;
}

void centre(Runs& runs) {
    std::erase_if(runs, [](const auto& run) { return run.readings.empty(); });
    const Sharing members = sharing(runs);
    for (auto& run : runs) run.residuals = run.readings;
    take_means_out(runs, members);
    // Once more takes out what rounding left: equal readings then leave exactly nothing.
    take_means_out(runs, members);
    for (auto& run : runs) {
        run.offset = mean(run.residuals);
        const auto line = linear_trend(run.places, run.residuals);
        run.slope = line ? std::optional(1000 * line->slope) : std::nullopt;
    }
}

std::vector<std::size_t> in_time(const Runs& runs) {
    std::vector<std::size_t> order(runs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return runs[a].when < runs[b].when; });
    return order;
}

std::vector<std::size_t> travelled(const RunResiduals& run) {
    std::vector<std::size_t> order(run.places.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (run.approach == Approach::Negative) std::reverse(order.begin(), order.end());
    return order;
}

Runs run_residuals(const document::Series& series, const SeriesEvaluation& evaluated) {
    Runs all;
    if (evaluated.kind == SeriesKind::AngleSteps || evaluated.source == Source::Stated) return all;
    const bool timed = has_times(series);
    double earliest = 0;
    for (std::size_t i = 0; timed && i < series.runs.size(); ++i)
        earliest = i == 0 ? *seconds_of(series.runs[i].started) : std::min(earliest, *seconds_of(series.runs[i].started));
    for (std::size_t i = 0; i < series.runs.size(); ++i) {
        const auto& run = series.runs[i];
        RunResiduals entry{.run = i,
                           .approach = run.approach,
                           .when = timed ? (*seconds_of(run.started) - earliest) / 60 : static_cast<double>(i),
                           .places = {},
                           .targets = {},
                           .ranks = {},
                           .readings = {}};
        add_readings(entry, run, evaluated);
        all.push_back(std::move(entry));
    }
    centre(all);
    return all;
}

}  // namespace wayfolio::evaluate
