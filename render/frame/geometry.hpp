#pragma once
#include "units/quantity.hpp"

namespace wayfolio::frame {

using units::Paper;

/// A place on the page: origin top left, y down.
struct Point {
    Paper x, y;
    bool operator==(const Point&) const = default;
};

struct Rect {
    Paper left, top, width, height;
    [[nodiscard]] Paper right() const { return left + width; }
    [[nodiscard]] Paper bottom() const { return top + height; }
};

/// sRGB, 0..255. Frames hold final colours; only layouts choose them.
struct Colour {
    unsigned char red = 0, green = 0, blue = 0;
    bool operator==(const Colour&) const = default;
};

}  // namespace wayfolio::frame
