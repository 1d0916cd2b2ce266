#pragma once
#include "evaluate/cumulants.hpp"
#include "evaluate/series_evaluation.hpp"

/// How much the means and standard deviations at the targets scatter, in base units, and what that makes of a value built of them.
namespace wayfolio::evaluate {

/// The noise at one target. The standard deviation of a reading is pooled over neighbours.
struct TargetNoise {
    double standard = 0, degrees_of_freedom = 0;      ///< of one reading
    document::ByApproach<double> variance_of_mean{};  ///< (standard^2 + d^2) / n; 0 where there is no mean
    document::ByApproach<Cumulants> error_of_s{};     ///< in units of `standard`; none where there is no s
};

/// Pooled over a window about each target, both directions, just wide enough for 20 degrees of freedom, else over the whole series
/// (GUM 4.2.4; the window is a choice, by simulation: scatter may grow along an axis, and t of 20 is within 6 % of normal).
/// Not evaluated where no target has two readings in a direction, or all readings at every target are equal.
/// @param drift standard uncertainty of one reading by drift
Evaluated<std::vector<TargetNoise>> target_noise(Targets targets, double drift);

/// How a value is built of one target's results.
struct BuiltOf {
    std::size_t target;
    document::ByApproach<double> of_mean{}, of_s{};
};

/// How a reference line follows the means it is fitted to: its slope is the sum of `slope` x mean.
struct LineNoise {
    std::vector<document::ByApproach<double>> slope{};  ///< of every target; empty: no line
    double middle = 0;                                  ///< of the travel
    double variance_of_slope = 0;
};

/// Of the line that `parameter` is taken about. None for a minimum zone: its width is at most the range of the same means about the
/// true line, whose noise is that of the means alone. [derived]
LineNoise line_noise(const SeriesEvaluation& series, const Parameter& parameter, const std::vector<TargetNoise>& noise);

/// Law of the noise of a value, less that of the line over `lever` along the axis. What moves the whole line is common to all values
/// and leaves a range alone.
Cumulants noise_of(const BuiltOf& built, const std::vector<TargetNoise>& noise, const LineNoise& line, double lever);

}  // namespace wayfolio::evaluate
