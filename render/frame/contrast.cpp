#include "frame/contrast.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::frame {

namespace {

/// WCAG 2.1 prints the threshold 0.03928 of an early draft of sRGB; IEC 61966-2-1 has 0.04045. No 8-bit value lies between the
/// two.
double linear(unsigned char channel) {
    const double value = channel / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

}  // namespace

double luminance(Colour colour) {
    return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast(Colour one, Colour other) {
    // std::minmax of two values would give references to what is already gone.
    const auto [dark, light] = std::minmax({luminance(one), luminance(other)});
    return (light + 0.05) / (dark + 0.05);
}

}  // namespace wayfolio::frame
