#include "evaluate/review/site/before_leaving.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace wayfolio::evaluate {
namespace {

/// Whether so many different values stand there; a run of thousands says so by its first few.
bool differ(const std::vector<double>& values, std::size_t fewest) {
    std::vector<double> met;
    for (const double value : values) {
        if (met.size() == fewest) break;
        if (std::ranges::find(met, value) == met.end()) met.push_back(value);
    }
    return met.size() == fewest;
}

/// A run's readings as they were written, in the order of the targets; empty where they are too few, or too much alike, to say anything.
std::vector<double> telling_readings(const document::Series& series, const document::Run& run) {
    constexpr std::size_t fewest_readings = 5, fewest_values = 4;  // by choice: four different numbers in one order are no accident
    std::vector<double> readings;
    for (const auto& reading : run.deviations)
        if (reading) readings.push_back(reading->in(series.unit));
    const bool telling = readings.size() >= fewest_readings && differ(readings, fewest_values);
    return telling ? readings : std::vector<double>{};
}

struct Place {
    std::size_t series, run;
};

}  // namespace

void add_copied_series(std::vector<BeforeLeaving>& lines, const document::Document& document) {
    std::map<std::vector<double>, Place> seen;
    std::map<std::pair<std::size_t, std::size_t>, std::vector<Place>> equal;  // runs of the later series, by both series
    for (std::size_t s = 0; s < document.series.size(); ++s) {
        const auto& series = document.series[s];
        for (std::size_t r = 0; r < series.runs.size(); ++r) {
            const auto readings = telling_readings(series, series.runs[r]);
            if (readings.empty()) continue;
            const auto [first, is_new] = seen.try_emplace(readings, Place{s, r});
            if (!is_new && first->second.series != s) equal[{first->second.series, s}].push_back({s, r});
        }
    }
    for (const auto& [pair, runs] : equal) {
        const auto &earlier = document.series[pair.first], &later = document.series[pair.second];
        // One run of few readings in whole micrometres may be another's by chance; a whole series is not.
        constexpr std::size_t fewest_in_all = 10;
        if (runs.size() != later.runs.size() || runs.size() * later.runs.front().deviations.size() < fewest_in_all) continue;
        lines.push_back({FindingCode::RunCopied,
                         fmt::format("all runs of series {} stand in series {} to the last digit: one looks copied from the other",
                                     later.id, earlier.id),
                         run_place(later, pair.second, runs.front().run), "certain",
                         "take the readings from the instrument's own record, or measure them again"});
    }
}

}  // namespace wayfolio::evaluate
