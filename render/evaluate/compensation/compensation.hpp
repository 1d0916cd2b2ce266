#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// One line of a compensation table: what is added to the commanded position there.
struct CompensationPoint {
    Position position;
    Deviation exact;        ///< minus (mean - mean at the reference), before rounding
    Deviation absolute;     ///< the accumulated value, rounded to the increment (halves away from zero)
    Deviation incremental;  ///< difference to the point before, in rising order; the first point's is its absolute value
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

/// The correction at a place: linear between points, held beyond the first and the last one.
Deviation correction_at(const CompensationTable& table, const Position& position);

/// Makes every compensation table the document asks for.
/// Points are reference + k spacing inside the measured range; value = -(mean - mean at the reference), linear between targets.
/// Convention (textbook, ISO/TR 16907:2015 clauses 8-9 by their titles only): correction = minus error, added to the commanded
/// position; zero at the reference point; linear between points.
std::vector<CompensationEvaluation> evaluate_compensation(const document::Document& document,
                                                          const std::vector<SeriesEvaluation>& series);

}  // namespace wayfolio::evaluate
