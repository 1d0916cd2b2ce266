#pragma once
#include "text/closes.hpp"
#include "text/shaper.hpp"

#include <cairo.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

namespace wayfolio::text {

/// What the program was built with.
std::vector<Shaper::FontFile> listed_fonts();

/// The checked private fonts, opened: a fontconfig configuration that holds them and nothing else, and a Pango font map on it.
class FontSet {
public:
    /// @throws FontFailed when a file is missing, is not the one of fonts/fonts.json, or cannot be read
    explicit FontSet(const std::string& folder);

    /// The same files, already checked, with a font map of their own: Pango's may be used by one thread at a time.
    /// @throws FontFailed when a file can no longer be opened
    [[nodiscard]] FontSet beside() const;

    /// The context to itemise with; its font description is set by the caller.
    [[nodiscard]] PangoContext* context() const { return context_.get(); }
    /// Which private file Pango resolved to. @throws FontFailed when it is none of them
    [[nodiscard]] frame::FaceId face_of(PangoFont* font) const;
    [[nodiscard]] cairo_font_face_t* cairo_face(frame::FaceId face) const { return faces_.at(face.index).get(); }

private:
    FontSet() = default;
    void open_files(const std::string& folder);
    void open_map();
    void open_faces();

    Owned<FcConfig, FcConfigDestroy> config_;
    Owned<PangoFontMap, g_object_unref> map_;
    Owned<PangoContext, g_object_unref> context_;
    std::vector<Owned<cairo_font_face_t, cairo_font_face_destroy>> faces_;
};

}  // namespace wayfolio::text
