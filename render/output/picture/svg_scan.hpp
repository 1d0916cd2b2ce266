#pragma once
#include <string>

namespace wayfolio::output {

/// What must be known of an SVG picture before it is drawn.
struct SvgScan {
    bool needs_pixels;  ///< what it holds would break the tags of a PDF, or its text might lack glyphs
};

/// Reads the picture without drawing it.
/// @throws PictureRefused where it is not well-formed, or could take time or memory without bound: filters, patterns, markers, pictures in
/// it, references in references, style sheets and outlines that are too long to be drawn as pixels
SvgScan scan_svg(const std::string& svg);

}  // namespace wayfolio::output
