#pragma once
#include "frame/frame.hpp"
#include "text/shaper.hpp"

namespace wayfolio::output {

/// A length in points as SVG writes it: rounded to a thousandth, in its shortest form.
std::string svg_number(frame::Paper length);

/// The items as SVG elements: text as outlines, each glyph once under `defs`, whatever fonts a reader has.
/// @param prefix what every id begins with
/// @throws FontFailed, files::OutputFailed when an outline cannot be had
std::string svg_drawing(const std::vector<frame::Item>& items, const text::Shaper& shaper, const std::string& prefix);

}  // namespace wayfolio::output
