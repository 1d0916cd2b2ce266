#pragma once
#include "evaluate/series_evaluation.hpp"

namespace wayfolio::evaluate {

/// One parameter as found and as left.
struct ComparedParameter {
    std::string name;
    Deviation found, left, change;  ///< change = left - found
};

/// Two series of one error, the earlier as found and the later as left.
struct Comparison {
    std::string found, left;  ///< ids of the series
    document::ErrorSymbol error;
    DeviationUnit unit;  ///< of the series as left
    std::vector<ComparedParameter> parameters;
};

/// Pairs each as-left series with the as-found series of the same error (and the same measurement line where both name one).
std::vector<Comparison> compare_found_and_left(const document::Document& document, const std::vector<SeriesEvaluation>& series);

}  // namespace wayfolio::evaluate
