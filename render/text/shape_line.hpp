#pragma once
#include "text/font_set.hpp"

namespace wayfolio::text {

/// Shapes pieces as one line; tabs and line feeds count as spaces. Trailing spaces stay in the text but not in `width` or
/// `advance`.
/// @throws FontFailed for a character without a glyph, or written from right to left
Line shape_line(const FontSet& fonts, std::span<const Piece> pieces, const TextStyle& style);

}  // namespace wayfolio::text
