#pragma once
#include "evaluate/review/readings/gross_errors.hpp"
#include "evaluate/review/readings/repeats.hpp"

namespace wayfolio::evaluate {

/// What was written down wrongly, and the runs without those that no other test is to see.
struct MisreadRuns {
    std::vector<RepeatedReadings> repeats{};
    std::vector<GrossError> gross{};
    std::vector<std::size_t> left_out{};  ///< places in the document
    Runs rest{};
};

MisreadRuns misread_runs(const document::Series& series, const SeriesEvaluation& evaluated);

}  // namespace wayfolio::evaluate
