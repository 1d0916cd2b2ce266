#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// Means along an axis, linear between targets: of both directions (no approach), or of one.
struct ErrorCurve {
    std::vector<Position> places;  ///< rising
    std::vector<Deviation> means;

    /// Inside the measured range.
    [[nodiscard]] Deviation at(const Position& position) const;
};
ErrorCurve error_curve(const SeriesEvaluation& series, std::optional<Approach> approach);

}  // namespace wayfolio::evaluate
