#include "support/samples/surroundings.hpp"

#include "support/samples/measured_series.hpp"

namespace wayfolio::samples {

Json environment(const Surroundings& a, std::uint64_t seed) {
    Noise noise(seed);
    Json samples = Json::array();
    for (int minute = a.start_minute; minute <= a.end_minute; minute += a.every_minutes) {
        const double u = static_cast<double>(minute - a.start_minute) / (a.end_minute - a.start_minute);
        Json sample = {{"time", clock_time(a.day, minute)},
                       {"air_C", shown(a.air_start_C + a.air_rise_K * u * (1.4 - 0.4 * u) + 0.04 * noise.normal(), 100)},
                       {"pressure_hPa", shown(a.pressure_start_hPa + a.pressure_change_hPa * u + 0.03 * noise.normal(), 10)},
                       {"humidity_percent", shown(a.humidity_start + a.humidity_change * u + 0.2 * noise.normal(), 10)}};
        double offset = 0;
        for (const std::string& sensor : a.sensors) {
            sample["machine_C"][sensor] = shown(a.machine_start_C + offset + a.machine_rise_K * u + 0.008 * noise.normal(), 100);
            offset += a.apart_K;
        }
        samples.push_back(std::move(sample));
    }
    return {{"reference_temperature_C", 20}, {"samples", std::move(samples)}};
}

Json drift_record(const std::string& axis, double at_mm, const std::string& day, int start_minute, int minutes, double wander_um,
                  std::uint64_t seed) {
    Noise noise(seed);
    Json samples = Json::array();
    for (int minute = 0; minute <= minutes; minute += 5) {
        const double u = static_cast<double>(minute) / minutes;
        samples.push_back({{"time", clock_time(day, start_minute + minute)},
                           {"um", shown(wander_um * std::sin(5 * u) * 0.5 + 0.05 * noise.normal(), 10)}});
    }
    return {{"axis", axis}, {"quantity", "E" + axis + axis}, {"at_mm", plain_number(at_mm)}, {"samples", std::move(samples)}};
}

}  // namespace wayfolio::samples
