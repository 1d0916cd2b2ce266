#pragma once
#include "frame/geometry.hpp"

namespace wayfolio::frame {

/// Relative luminance of an sRGB colour, 0 (black) to 1 (white). Source: WCAG 2.1, definition of relative luminance.
double luminance(Colour colour);
/// Contrast ratio of two colours, 1 to 21. Source: WCAG 2.1, definition of contrast ratio.
double contrast(Colour one, Colour other);

}  // namespace wayfolio::frame
