#pragma once
#include "document/read/reading.hpp"

namespace wayfolio::document {

/// A logo as the document names it: an SVG or PNG file beside the document (kept as a side file), or a data: URI of one.
/// Empty and a fault when it is neither.
std::string read_logo(const Value& value, Reading& reading);

}  // namespace wayfolio::document
