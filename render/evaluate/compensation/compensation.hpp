#pragma once
#include "evaluate/compensation_evaluation.hpp"
#include "evaluate/series/error_curve.hpp"

namespace wayfolio::evaluate {

/// The correction at a place: linear between points, held beyond the first and the last one.
Deviation correction_at(const CompensationTable& table, const Position& position);

/// Makes every compensation table the document asks for.
/// Points are reference + k spacing inside the measured range; value = -(mean - mean at the reference), linear between targets.
/// Convention (textbook, ISO/TR 16907:2015 clauses 8-9 by their titles only): correction = minus error, added to the commanded
/// position; zero at the reference point; linear between points.
std::vector<CompensationEvaluation> evaluate_compensation(const document::Document& document,
                                                          const std::vector<SeriesEvaluation>& series);

/// The tables that a kind consists of: no approach for the bidirectional mean.
std::vector<std::optional<Approach>> approaches_of(document::TableKind kind);

/// reference + k spacing inside the range of the curve, rising.
std::vector<Position> table_places(const CompensationEvaluation& compensation, const ErrorCurve& curve);

/// Why no table can stand: series, spacing, range or readings. Empty if it can.
std::vector<std::string> refusals(const CompensationEvaluation& compensation, const SeriesEvaluation* series);

/// What the user of a finished table must know, plain sentences.
std::vector<std::string> table_remarks(const CompensationEvaluation& compensation, const SeriesEvaluation& series);

}  // namespace wayfolio::evaluate
