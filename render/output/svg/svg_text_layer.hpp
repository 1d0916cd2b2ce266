#pragma once
#include "frame/frame.hpp"

#include <string>

namespace wayfolio::output {

/// The runs' text as transparent SVG text over their outlines, each stretched to its run's width.
std::string text_layer(const std::vector<frame::Item>& items);

}  // namespace wayfolio::output
