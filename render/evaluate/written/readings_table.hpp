#pragma once
#include "evaluate/series_evaluation.hpp"

#include <string>

namespace wayfolio::evaluate {

/// Readings and evaluated values of one series as CSV (RFC 4180, UTF-8), for a spreadsheet. One row per target (rising position) and
/// approach, then, after an empty line, one row per parameter. Readings are actual minus target, in `reading_unit`; a missing or excluded
/// one is an empty cell, and the column `excluded` says the latter's value and reason, so that a spreadsheet's mean is ours.
/// A value that could not be evaluated is an empty cell.
std::string readings_table(const document::Series& series, const SeriesEvaluation& evaluation);

}  // namespace wayfolio::evaluate
