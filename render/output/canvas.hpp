#pragma once
#include "frame/frame.hpp"
#include "text/shaper.hpp"

#include <cairo.h>

namespace wayfolio::output {

/// How text reaches a surface: as glyphs of an embedded font, or as filled outlines (exact places, where a surface would round
/// them).
enum class TextAs { Glyphs, Outlines };
/// How a picture is scaled. PDF/A forbids /Interpolate, which every filter but Nearest writes.
enum class Scaling { Smooth, Nearest };

/// Saves Cairo's state and restores it on leaving the scope.
class SavedState {
public:
    explicit SavedState(cairo_t* cairo) : cairo_(cairo) { cairo_save(cairo_); }
    ~SavedState() { cairo_restore(cairo_); }
    SavedState(const SavedState&) = delete;
    SavedState& operator=(const SavedState&) = delete;

private:
    cairo_t* cairo_;
};

/// Draws single items on any Cairo surface: the one painter of PDF and PNG; SVG takes outlines of glyphs from it.
class Canvas {
public:
    Canvas(cairo_t* cairo, const text::Shaper& shaper, TextAs text, Scaling scaling);

    void show(const frame::Path& path);
    void show(const frame::GlyphRun& run);
    /// Keeps the picture's aspect and centres it in its box. @throws files::OutputFailed for bytes that are no picture
    void show(const frame::Image& image);
    void clip(const frame::Rect& rect);
    /// All items, with clips; links and bookmarks show nothing.
    void show(const std::vector<frame::Item>& items);

    [[nodiscard]] cairo_t* cairo() const { return cairo_; }

private:
    cairo_t* cairo_;
    const text::Shaper& shaper_;
    TextAs text_;
    Scaling scaling_;
    std::vector<cairo_glyph_t> glyphs_;            ///< of the run that is drawn, as Cairo wants them
    std::vector<cairo_text_cluster_t> clusters_;
};

}  // namespace wayfolio::output
