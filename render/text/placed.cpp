#include "text/shaper.hpp"

namespace wayfolio::text {

std::vector<frame::GlyphRun> placed(Line line, frame::Point origin) {
    for (frame::GlyphRun& run : line.runs) {
        run.origin = {run.origin.x + origin.x, run.origin.y + origin.y};
        for (frame::Glyph& glyph : run.glyphs) glyph = {glyph.id, glyph.x + origin.x, glyph.y + origin.y};
    }
    return std::move(line.runs);
}

std::vector<frame::GlyphRun> placed_upwards(Line line, frame::Point origin) {
    // A turn by -90 degrees with y down takes (x, y) to (y, -x).
    for (frame::GlyphRun& run : line.runs) {
        run.rotated = true;
        run.origin = {origin.x + run.origin.y, origin.y - run.origin.x};
        for (frame::Glyph& glyph : run.glyphs) glyph = {glyph.id, origin.x + glyph.y, origin.y - glyph.x};
    }
    return std::move(line.runs);
}

}  // namespace wayfolio::text
