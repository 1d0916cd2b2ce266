#pragma once

/// Distances that follow from the shapes of letters and marks, in points. They belong to the drawing: a layout that changes the size of
/// small type does not change them.
namespace wayfolio::plot {

// Small type (7.5 pt) about its baseline.
inline constexpr double half_figure = 2.7;      ///< half the height of a figure: a number that far below a level stands level with it
inline constexpr double small_figure_top = 6.5; ///< from the top of a label's box to its baseline
inline constexpr double label_height = 8;       ///< of a label's box: figures with a little air
inline constexpr double title_ascent = 8;       ///< a title on a figure's upper edge reaches that far above it

// Axes.
inline constexpr double number_beside_axis = 6; ///< number to the axis right of it
inline constexpr double number_below_axis = 13; ///< baseline of the numbers under an axis
inline constexpr double axis_room = 16;         ///< an axis with its numbers takes that much below a plot

// Labels inside a plot.
inline constexpr double line_air = 1;           ///< what a line takes on each side of itself, so that no label touches it
inline constexpr double label_above_line = 4, label_below_line = 10;
inline constexpr double letter_beside_mark = 4.5, letter_drop = 2.6;  ///< the letter of an excluded reading

/// Right of a plot: the innermost bracket, and the number or letter beside a bracket.
inline constexpr double first_bracket = 8, number_beside_bracket = 5;

}  // namespace wayfolio::plot
