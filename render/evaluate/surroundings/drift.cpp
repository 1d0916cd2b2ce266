#include "evaluate/surroundings/surroundings.hpp"

#include "evaluate/numbers/expansion.hpp"
#include "evaluate/surroundings/time.hpp"

#include <algorithm>

namespace wayfolio::evaluate {
namespace {

/// The longest time that one series of the error took, in minutes.
std::optional<double> longest_test(const document::Document& document, const std::string& quantity) {
    std::optional<double> longest;
    for (const auto& series : document.series) {
        if (series.error.text() != quantity) continue;
        std::optional<double> first, last;
        for (const auto& run : series.runs) {
            const auto started = seconds_of(run.started), ended = seconds_of(run.ended);
            if (started) first = std::min(first.value_or(*started), *started);
            if (ended) last = std::max(last.value_or(*ended), *ended);
        }
        if (first && last && *last > *first) longest = std::max(longest.value_or(0), (*last - *first) / 60);
    }
    return longest;
}

}  // namespace

std::vector<DriftEvaluation> evaluate_drift(const document::Document& document) {
    std::vector<DriftEvaluation> all;
    for (const auto& record : document.drift) {
        if (record.samples_um.size() < 2) continue;
        DriftEvaluation drift{.axis = record.axis,
                              .quantity = record.quantity,
                              .at_mm = record.at_mm,
                              .minutes = {},
                              .test_minutes = {},
                              .covers_test = {}};
        const auto [low, high] = std::minmax_element(record.samples_um.begin(), record.samples_um.end(),
                                                     [](const auto& a, const auto& b) { return a.second < b.second; });
        drift.um = high->second - low->second;
        drift.standard_um = rectangular_standard(drift.um);
        const auto first = seconds_of(record.samples_um.front().first), last = seconds_of(record.samples_um.back().first);
        if (first && last) drift.minutes = (*last - *first) / 60;
        drift.test_minutes = longest_test(document, record.quantity);
        if (drift.minutes && drift.test_minutes) drift.covers_test = *drift.minutes >= *drift.test_minutes;
        all.push_back(std::move(drift));
    }
    return all;
}

}  // namespace wayfolio::evaluate
