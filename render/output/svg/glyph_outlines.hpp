#pragma once
#include "output/canvas.hpp"
#include "output/memory_stream.hpp"

#include <cstdint>
#include <string>

namespace wayfolio::output {

/// Outlines of glyphs, as Cairo makes them from a font.
class GlyphOutlines {
public:
    /// The grid of an outline: at 8 pt a line every 0.008 pt, a fifteenth of a dot at 600 dpi.
    static constexpr int per_em = 1000;

    explicit GlyphOutlines(const text::Shaper& shaper);

    /// The `d` of a path, in `per_em`-ths of the size of the type, from the origin of the glyph; "" for one without ink.
    /// @throws files::OutputFailed when it cannot be had
    std::string outline(frame::FaceId face, std::uint32_t glyph);

private:
    const text::Shaper& shaper_;
    Surface surface_;
    Context context_;
    Canvas canvas_;  ///< its font options are those of all drawings
};

}  // namespace wayfolio::output
