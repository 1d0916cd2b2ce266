#pragma once
#include "text/shaper.hpp"

namespace wayfolio::text {

/// Names the character, its code point and its script: `no private font has the character "あ" (U+3042, script Hiragana)`.
GlyphMissing missing_glyph(char32_t character);
/// The same for a script that is written from right to left, which the shaper does not set.
GlyphMissing right_to_left(char32_t character);

}  // namespace wayfolio::text
