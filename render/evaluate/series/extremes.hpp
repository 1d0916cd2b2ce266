#pragma once
#include "evaluate/series_evaluation.hpp"

/// Ranges and maxima over targets, with the targets that set them.
namespace wayfolio::evaluate {

/// From where to where a curve reaches at one target: equal ends for a mean, mean -+ k s for a band.
struct Reach {
    std::size_t target;                ///< place in the targets
    std::optional<Approach> approach;  ///< empty for a bidirectional curve
    Deviation low, high;
};

/// Appends mean -+ k s of one direction, wherever its mean is there (and, for k > 0, its s).
void add_band(std::vector<Reach>& reaches, Targets targets, Approach approach, double k);

/// Highest high end less lowest low end; the first listed wins a tie, the others stand under `tied`.
/// @param reaches at least one
Parameter range_parameter(std::string name, Targets targets, const std::vector<Reach>& reaches);

/// What is largest at one target, and the level of the drawn curve there (signed, where the size is an absolute value).
struct Peak {
    std::size_t target;
    std::optional<Approach> approach;
    Deviation size, level;
};

/// The largest size; the first listed wins a tie, the others stand under `tied`.
/// @param peaks at least one
Parameter maximum_parameter(std::string name, Targets targets, const std::vector<Peak>& peaks);

}  // namespace wayfolio::evaluate
