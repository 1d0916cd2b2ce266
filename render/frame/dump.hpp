#pragma once
#include "frame/frame.hpp"

#include <string>

namespace wayfolio::frame {

/// The whole display list as text, one item a line, coordinates rounded to 0.01 pt, glyph runs by their text: for tests, and to tell
/// figures apart.
std::string dump(const Frame& frame);

}  // namespace wayfolio::frame
