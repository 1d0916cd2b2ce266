#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// Readings that look like the positions that were read, where deviations from the targets are asked for.
struct PositionsRead {
    double slope;  ///< of the readings over the targets; without unit, and near 1 or -1
    bool numbers;  ///< of the numbers as they are written: 250.003 at target 250, whatever the units say
};

/// Readings that grow by about as much as their targets: no error of an axis is as large as the way. And readings of positioning whose
/// numbers are those of their targets, as where µm are named and mm were typed. By choice: a tenth for the first, a hundredth for the
/// second, for a slope of 1 µm/mm or 1″/° alone would be large but possible. Of three targets and more.
std::optional<PositionsRead> positions_read(const document::Series& series, const SeriesEvaluation& evaluated);

}  // namespace wayfolio::evaluate
