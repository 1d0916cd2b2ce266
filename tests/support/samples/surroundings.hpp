#pragma once
#include "support/samples/json_text.hpp"

#include <string>
#include <vector>

namespace wayfolio::samples {

/// A hall that warms during a morning.
struct Surroundings {
    std::string day = "2026-05-11";
    int start_minute = 8 * 60 + 20, end_minute = 11 * 60, every_minutes = 10;
    double air_start_C = 20.4, air_rise_K = 0.9;
    double pressure_start_hPa = 1008.2, pressure_change_hPa = -0.8;
    double humidity_start = 44, humidity_change = -3;
    std::vector<std::string> sensors{"X bed near", "X bed far"};
    double machine_start_C = 20.3, machine_rise_K = 0.3, apart_K = 0.12;  ///< each further sensor starts this much warmer
};

/// The `environment` of a document: samples through the measuring time, read to 0.01 degC, 0.1 hPa and 0.1 %.
Json environment(const Surroundings& around, std::uint64_t seed);

/// A `drift` record of an axis at rest: a slow wander and noise, read to 0.1 um.
Json drift_record(const std::string& axis, double at_mm, const std::string& day, int start_minute, int minutes, double wander_um,
                  std::uint64_t seed);

}  // namespace wayfolio::samples
