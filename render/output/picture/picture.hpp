#pragma once
#include "output/canvas.hpp"

namespace wayfolio::output {

/// Draws a PNG or SVG picture into its box, aspect kept, centred. Nothing outside the given bytes is ever read.
/// SVG that holds text, links, pictures, masks or opacity is drawn as 600 dpi pixels: its text might lack glyphs, and its links
/// and groups break tags.
/// @throws PictureRefused for bytes that are no such picture, or one that could take time or memory without bound
void show_picture(cairo_t* cairo, const frame::Image& image, Scaling scaling);

}  // namespace wayfolio::output
