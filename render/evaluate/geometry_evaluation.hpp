#pragma once
#include "evaluate/series_evaluation.hpp"
#include "evaluate/uncertainty_evaluation.hpp"

/// What several series say together: squareness, and as found against as left.
namespace wayfolio::evaluate {

/// One kind of reference line on both axes, and the squareness it gives.
struct SquarenessByLine {
    document::ReferenceLine line;
    units::Angle slope_first, slope_second;  ///< of the first axis's line against rising position, and of the second's
    units::Angle value;
};

/// Squareness of two axes from their straightness lines against a common square.
struct SquarenessEvaluation {
    std::array<std::string, 2> axes, series;
    std::string symbol;  ///< EC0Y, EB0Z or EA0Z of ISO 230-1:2012 Annex A [from memory]
    document::ReferenceLine reference_line;
    Evaluated<units::Angle> value;        ///< right-hand rotation of the second axis about the third; about the headline line
    std::optional<units::Angle> beyond_right_angle;  ///< angle between the positive directions less 90 degrees; positive opens the quadrant
    std::optional<units::Angle> square_error;  ///< that entered; empty: the document states none and 0 was used
    std::string square_serial;
    std::vector<SquarenessByLine> lines;
};

/// One parameter as found and as left.
struct FoundAgainstLeftParameter {
    std::string name;
    Deviation found, left, change;  ///< change = left - found
    std::optional<UncertaintyOfChange> uncertainty{};  ///< empty: one of the two has none
};

/// Two series of one error, the earlier as found and the later as left.
struct FoundAgainstLeft {
    std::string found, left;  ///< ids of the series
    document::ErrorSymbol error;
    DeviationUnit unit;  ///< of the series as left
    std::vector<FoundAgainstLeftParameter> parameters;
};

/// Two squarenesses of the same axes, from series as found and from series as left.
struct SquarenessFoundAgainstLeft {
    std::size_t found, left;  ///< places in Evaluation::squareness
    FoundAgainstLeftParameter parameter;
};

}  // namespace wayfolio::evaluate
