#pragma once
#include "evaluate/series_evaluation.hpp"

/// Compensation tables that the document asks for, with what they would leave.
namespace wayfolio::evaluate {

/// One line of a compensation table: what is added to the commanded position there.
struct CompensationPoint {
    Position position;
    Deviation exact;       ///< minus (mean - mean at the reference), before rounding
    Deviation correction;  ///< rounded to the increment (halves away from zero)
    Deviation change;      ///< of the correction from the point before, in rising order; 0 at the first point
};

/// A table for both directions (no approach) or for one.
struct CompensationTable {
    std::optional<Approach> approach;
    std::vector<CompensationPoint> points;  ///< rising position
};

/// What the means at a target would be with the table in use. A prediction, never a measurement.
struct PredictedTarget {
    Position position;
    ByApproach<std::optional<Deviation>> means;
    std::optional<Deviation> mean;  ///< of both directions
};

/// A compensation table with its prediction, or the reasons why none is given.
struct CompensationEvaluation {
    std::string axis, series;
    document::TableKind kind;
    DeviationUnit unit;  ///< µm (linear) or arcsec (rotary)
    PositionUnit position_unit;
    Position reference;
    double spacing, increment;         ///< in position_unit and unit
    std::vector<std::string> refused;  ///< reasons; empty: the table stands
    std::vector<std::string> remarks;  ///< what the user of the table must know
    std::vector<CompensationTable> tables;
    /// B_mean rounded to the increment, signed; with two tables the reversal at the reference, because the tables hold its change
    /// along the axis. Nothing for readings in one direction.
    std::optional<Deviation> reversal;
    std::vector<PredictedTarget> predicted_targets;
    std::vector<Parameter> predicted;  ///< E, A, M, B ... with the standard deviations unchanged
};

}  // namespace wayfolio::evaluate
