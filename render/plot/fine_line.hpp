#pragma once
#include "frame/geometry.hpp"

#include <span>
#include <vector>

namespace wayfolio::plot {

/// The points of a long line that paper can show at 600 dpi: of those that follow each other in one column of dots the first, the least,
/// the greatest and the last, in their order. What the line covers of each column is what all points cover.
std::vector<frame::Point> fine_line(std::span<const frame::Point> points);

}  // namespace wayfolio::plot
