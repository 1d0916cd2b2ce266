#pragma once
#include "frame/frame.hpp"

#include <vector>

namespace wayfolio::output {

/// Every glyph of all pages once, with the text that it first stands for, in the order in which they first appear. A surface that draws
/// the sample first embeds the same fonts as any other that does, whatever pages follow: Cairo numbers glyphs as they come.
std::vector<frame::GlyphRun> glyph_sample(const std::vector<frame::Frame>& pages);

}  // namespace wayfolio::output
