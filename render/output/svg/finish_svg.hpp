#pragma once
#include "output/output.hpp"

namespace wayfolio::output {

/// Cairo's SVG with ids that do not depend on what the process drew before, title, description, role and a transparent text
/// layer, so that the outlines' text can be selected, searched and read aloud.
std::string finish_svg(std::string bytes, const frame::Frame& frame, const Metadata& metadata);

}  // namespace wayfolio::output
