#pragma once
#include "evaluate/series_evaluation.hpp"

/// The test conditions of ISO 230-2, reported and never enforced. They are from memory of the standard, except where a comment
/// names where one was seen.
namespace wayfolio::evaluate {

/// Which conditions hold for a positioning series. Linear axes: number and spacing of the targets, runs, directions; rotary axes:
/// number of targets, principal positions, runs; for both what the document says of warm-up, reference temperature and expansion.
/// @param targets of the series, rising
std::vector<Condition> test_conditions(const document::Document& document, const document::Series& series, Targets targets);

}  // namespace wayfolio::evaluate
