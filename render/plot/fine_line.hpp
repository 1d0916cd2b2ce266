#pragma once
#include "frame/geometry.hpp"

#include <span>
#include <vector>

namespace wayfolio::plot {

/// The points of a long line that paper can show at 600 dpi: of those that follow each other in one column of dots the least and the
/// greatest, and the first and the last where the line would otherwise go over into the next column elsewhere than both cover anyway, in
/// their order. What the line covers of each column is what all points cover.
std::vector<frame::Point> fine_line(std::span<const frame::Point> points);

}  // namespace wayfolio::plot
