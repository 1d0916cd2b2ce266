#pragma once
#include "text/shaper.hpp"

#include <functional>

namespace wayfolio::text {

using ShapeLine = std::function<Line(std::span<const Piece>)>;

/// Breaks pieces into lines no wider than `width`: after ordinary spaces, after a hyphen between letters, inside a word only when
/// it alone is too wide. Our own rule, since the Unicode one (UAX 14) also breaks at "/" and would part "µm/m". A line feed
/// forces a break.
/// @param letter_spacing that `shape` puts after every cluster
std::vector<Line> break_lines(std::span<const Piece> pieces, Paper width, Paper letter_spacing, const ShapeLine& shape);

}  // namespace wayfolio::text
