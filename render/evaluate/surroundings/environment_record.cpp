#include "evaluate/surroundings/environment_record.hpp"

#include "evaluate/surroundings/time.hpp"
#include "evaluate/numbers/statistics.hpp"

#include <algorithm>

namespace wayfolio::evaluate {

std::optional<Span> span_of(const document::Run& run) {
    const auto from = seconds_of(run.started), to = seconds_of(run.ended);
    if (!from || !to || *to < *from) return std::nullopt;
    return Span{*from, *to};
}

std::optional<Span> span_of(const document::Series& series) {
    std::optional<Span> whole;
    for (const auto& run : series.runs) {
        const auto span = span_of(run);
        if (!span) continue;
        if (!whole) whole = span;
        whole->from = std::min(whole->from, span->from);
        whole->to = std::max(whole->to, span->to);
    }
    return whole;
}

EnvironmentSamples all_samples(const document::Document& document) {
    EnvironmentSamples samples;
    if (document.environment)
        for (const auto& sample : document.environment->samples) samples.push_back(&sample);
    return samples;
}

EnvironmentSamples samples_during(const document::Document& document, const std::optional<Span>& span) {
    EnvironmentSamples all = all_samples(document);
    if (!span) return all;
    std::vector<std::pair<double, const document::EnvironmentSample*>> timed;
    for (const auto* sample : all)
        if (const auto time = seconds_of(sample->time)) timed.emplace_back(*time, sample);
    if (timed.empty()) return all;
    std::stable_sort(timed.begin(), timed.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    auto first = std::upper_bound(timed.begin(), timed.end(), span->from, [](double t, const auto& s) { return t < s.first; });
    if (first != timed.begin()) --first;
    auto last = std::lower_bound(first, timed.end(), span->to, [](const auto& s, double t) { return s.first < t; });
    if (last != timed.end()) ++last;
    EnvironmentSamples within;
    for (auto sample = first; sample != last; ++sample) within.push_back(sample->second);
    return within;
}

std::optional<Air> air_of(const document::EnvironmentSample& sample) {
    if (!sample.air_C || !sample.pressure_hPa || !sample.humidity_percent) return std::nullopt;
    return Air{*sample.air_C, 100 * *sample.pressure_hPa, *sample.humidity_percent,
               sample.co2_ppm.value_or(Air{}.co2_umol_per_mol)};
}

std::optional<Air> mean_air(const EnvironmentSamples& samples) {
    std::vector<double> t, p, h, c;
    for (const auto* sample : samples)
        if (const auto air = air_of(*sample)) {
            t.push_back(air->temperature_C);
            p.push_back(air->pressure_Pa);
            h.push_back(air->humidity_percent);
            c.push_back(air->co2_umol_per_mol);
        }
    if (t.empty()) return std::nullopt;
    return Air{mean(t), mean(p), mean(h), mean(c)};
}

std::optional<Temperatures> machine_temperatures(const EnvironmentSamples& samples, const std::vector<std::string>& sensors) {
    std::vector<double> readings;
    for (const auto* sample : samples)
        for (const auto& [name, temperature] : sample->machine_C)
            if (sensors.empty() || std::find(sensors.begin(), sensors.end(), name) != sensors.end())
                readings.push_back(temperature);
    if (readings.empty()) return std::nullopt;
    const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
    return Temperatures{*low, mean(readings), *high};
}

double reference_temperature_C(const document::Document& document) {
    return document.environment ? document.environment->reference_temperature_C.value_or(20) : 20;  // ISO 1
}

}  // namespace wayfolio::evaluate
