#include "evaluate/review/run_residuals.hpp"

#include "evaluate/surroundings/time.hpp"
#include "evaluate/numbers/statistics.hpp"
#include "evaluate/series/targets.hpp"
#include "evaluate/numbers/least_squares.hpp"

#include <algorithm>

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
    for (const auto& target : evaluated.targets) {
        auto reading = run.used(target.index);
        const auto& centre = target.one_way[run.approach].mean;
        if (!reading || !centre) continue;
        reading = *reading + evaluated.air_at(target.position);
        const auto unit = base_unit(reading->dimension());
        entry.places.push_back(target.position.in(natural_unit(target.position.dimension())));
        entry.targets.push_back(target.index);
        entry.readings.push_back(reading->in(unit));
        entry.residuals.push_back((*reading - *centre).in(unit));
    }
}

}  // namespace

std::vector<RunResiduals> run_residuals(const document::Series& series, const SeriesEvaluation& evaluated) {
    std::vector<RunResiduals> all;
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
                           .readings = {},
                           .residuals = {},
                           .offset = 0,
                           .slope = {}};
        add_readings(entry, run, evaluated);
        if (entry.residuals.empty()) continue;
        entry.offset = mean(entry.residuals);
        if (const auto line = linear_trend(entry.places, entry.residuals)) entry.slope = 1000 * line->slope;
        all.push_back(std::move(entry));
    }
    return all;
}

}  // namespace wayfolio::evaluate
