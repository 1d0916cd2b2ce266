#pragma once
#include "evaluate/series_evaluation.hpp"

/// Straightness of a linear axis by ISO 230-1:2012 clause 3.4: largest positive deviation plus the magnitude of the largest
/// negative one about a reference straight line.
namespace wayfolio::evaluate {

/// Evaluates a series of kind straightness or steps: parameters straightness, straightness_mean, straightness_positive,
/// straightness_negative, slope, B, B_mean; all three lines; local straightness.
/// One line serves both directions, so that a reversal is never hidden. End point and least squares are fitted to the bidirectional
/// means; the minimum zone is the line for which the range of all means of both directions is least, so that no other line gives
/// less straightness. A series in one direction has its line fitted to that direction, and `straightness` is not evaluated. Levels in
/// set_by are deviations about the headline line. Steps: heights summed from the mean angles; `targets` then holds the stations, in µm,
/// `straightness` is the range of that one profile, and those of the directions are the ranges of the profiles by their own angles.
SeriesEvaluation evaluate_straightness(const document::Document& document, const document::Series& series);

/// Fills in parameters and lines from the targets of `evaluation`; parameters are about the line `headline`.
void add_straightness(SeriesEvaluation& evaluation, document::ReferenceLine headline);

/// The line that the document makes the headline: least squares by default.
document::ReferenceLine headline_line(const document::Document& document);

/// Lengths of local straightness for a measured range, in mm: those the document asks for, else 300 (and 1 000 from 2 000 mm on);
/// and the lengths of the series' tolerances. Rising, each once.
std::vector<double> local_lengths(const document::Document& document, const document::Series& series, double measured_mm);

/// Heights at the stations of a series of angle steps, in rising position; or why they cannot be summed.
/// The targets are the stations; the reading at one belongs to the step that ends there (in the file's order), so the first has
/// none. The height of the lowest station is 0; height grows by mean angle times base (rise = angle x base, exact to the small
/// angles of a guide). The base must equal the step between stations. Each height stands as the `mean` of its station, that by the
/// angles of one direction alone as the mean of that direction; n counts the readings of the step that ends there.
/// @param series with steps_base_mm set and readings in an angle unit
Evaluated<std::vector<TargetEvaluation>> heights_from_angle_steps(const document::Series& series);

}  // namespace wayfolio::evaluate
