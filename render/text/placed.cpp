#include "text/shaper.hpp"

namespace wayfolio::text {

std::vector<frame::GlyphRun> placed(const Line& line, frame::Point origin) {
    std::vector<frame::GlyphRun> runs = line.runs;
    for (frame::GlyphRun& run : runs) {
        run.origin = {run.origin.x + origin.x, run.origin.y + origin.y};
        for (frame::Glyph& glyph : run.glyphs) glyph = {glyph.id, glyph.x + origin.x, glyph.y + origin.y};
    }
    return runs;
}

std::vector<frame::GlyphRun> placed_upwards(const Line& line, frame::Point origin) {
    std::vector<frame::GlyphRun> runs = line.runs;
    // A turn by -90 degrees with y down takes (x, y) to (y, -x).
    for (frame::GlyphRun& run : runs) {
        run.rotated = true;
        run.origin = {origin.x + run.origin.y, origin.y - run.origin.x};
        for (frame::Glyph& glyph : run.glyphs) glyph = {glyph.id, origin.x + glyph.y, origin.y - glyph.x};
    }
    return runs;
}

}  // namespace wayfolio::text
