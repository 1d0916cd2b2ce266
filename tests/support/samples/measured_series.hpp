#pragma once
#include "support/samples/linear_axis.hpp"

#include <functional>

namespace wayfolio::samples {

/// How a set of runs is taken: alternating positive and negative, one after the other.
struct RunPlan {
    std::vector<double> targets;
    int runs_each_way = 5;
    bool negative_too = true;
    std::string day = "2026-05-11";
    int start_minute = 8 * 60 + 30, minutes_per_run = 5;
    double steps_per_unit = 10;  ///< the instrument shows 1/steps_per_unit
};

/// A deviation and the noise on it, in the series' unit.
using Reading = std::function<double(const Visit&)>;

/// The `runs` of a series.
Json measured_runs(const RunPlan& plan, const Reading& deviation, double noise_sd, Noise& noise);

/// A series of the linear axis with id, error, state, instrument, unit, targets and runs; tolerances and the like are added by
/// the caller.
Json measured_series(const LinearAxis& axis, const std::string& symbol, const std::string& state, const RunPlan& plan,
                     Noise& noise);

/// "2026-05-11T08:35+02:00"
std::string clock_time(const std::string& day, int minute);

/// 250 as 250 and 303.8 as 303.8.
Json plain_number(double value);
Json plain_numbers(const std::vector<double>& values);

Json tolerance(const std::string& parameter, double limit, const std::string& unit, const std::string& source);

}  // namespace wayfolio::samples
