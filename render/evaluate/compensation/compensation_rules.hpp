#pragma once
#include "evaluate/compensation/compensation.hpp"

/// What a compensation table is made from, and when none is made.
namespace wayfolio::evaluate {

/// Means along an axis, linear between targets: of both directions (no approach), or of one.
struct ErrorCurve {
    std::vector<Position> places;  ///< rising
    std::vector<Deviation> means;

    /// Inside the measured range.
    [[nodiscard]] Deviation at(const Position& position) const;
};
ErrorCurve error_curve(const SeriesEvaluation& series, std::optional<Approach> approach);

/// The tables that a kind consists of: no approach for the bidirectional mean.
std::vector<std::optional<Approach>> approaches_of(document::TableKind kind);

/// reference + k spacing inside the range of the curve, rising.
std::vector<Position> table_places(const CompensationEvaluation& compensation, const ErrorCurve& curve);

/// Why no table can stand: series, spacing, range or readings. Empty if it can.
std::vector<std::string> refusals(const CompensationEvaluation& compensation, const SeriesEvaluation* series);

/// What the user of a finished table must know, plain sentences.
std::vector<std::string> table_remarks(const CompensationEvaluation& compensation, const SeriesEvaluation& series);

}  // namespace wayfolio::evaluate
