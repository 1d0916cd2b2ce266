#pragma once
#include "evaluate/geometry_evaluation.hpp"

/// What several series say together: effects at the tool point, squareness, as found against as left.
namespace wayfolio::evaluate {

// clang-format off
/// Moves every positioning and straightness series of a linear axis whose measurement line (the one it names, else the only one of the
/// axis) has an offset to the tool point, by
/// the angles of the same axis in the same state. t runs from the measurement line to the tool point; error there = measured +
/// rotation x t, per direction, from the means [derived, rigid body; Bryan's and Abbe's principles]:
///   X: + EB tz - EC ty;  Y: + EC tx - EA tz;  Z: + EA ty - EB tx    (urad x mm = nm)
/// An additional result beside the measured one; A and R are not recomputed. Between the targets of an angle series its means are
/// joined by straight lines. Where an angle that is needed is missing, or does not cover the series, the parameters carry the
/// reason. The zero of an angle is the instrument's: a constant part of the effect is arbitrary, its changes along the axis are
/// not, and `largest` is their range over both approaches. An angle series has its own effect: angle times the distance of the tool
/// point from the line that it turns about.
// clang-format on
void add_tool_points(const document::Document& document, std::vector<SeriesEvaluation>& series);

/// Such a series as it is there: means without scatter, what is evaluated of them, and the lines of a straightness. Where the angles do
/// not cover it, no parameter, and the lines as measured. Needs a series with `at_tool_point` that is no angle.
SeriesEvaluation at_functional_point(const document::Document& document, const SeriesEvaluation& series);

/// Evaluates every squareness the document asks for.
/// EC0Y = -(slope of EYX + slope of EXY) + error of the square; for EA0Z alike; for EB0Z the signs turn, because a positive
/// rotation about Y closes the +X+Z quadrant [derived by the right-hand rule].
std::vector<SquarenessEvaluation> evaluate_squareness(const document::Document& document,
                                                      const std::vector<SeriesEvaluation>& series);

/// Pairs each as-left series with the as-found series of the same error (and the same measurement line where both name one).
std::vector<FoundAgainstLeft> found_against_left(const document::Document& document, const std::vector<SeriesEvaluation>& series);

/// Pairs each squareness whose two series are as left with the one of the same axes whose series are as found.
std::vector<SquarenessFoundAgainstLeft> found_against_left(const std::vector<SquarenessEvaluation>& squareness,
                                                           const std::vector<SeriesEvaluation>& series);

}  // namespace wayfolio::evaluate
