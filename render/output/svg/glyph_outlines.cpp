#include "output/svg/glyph_outlines.hpp"

#include "output/svg/svg_path.hpp"

namespace wayfolio::output {

namespace {

std::string words_of(const cairo_path_t& path) {
    SvgPath words(1);
    for (int i = 0; i < path.num_data; i += path.data[i].header.length) {
        const cairo_path_data_t* const step = &path.data[i];
        const auto x = [&](int n) { return step[n].point.x; };
        const auto y = [&](int n) { return step[n].point.y; };
        switch (step->header.type) {
            case CAIRO_PATH_MOVE_TO: words.move_to(x(1), y(1)); break;
            case CAIRO_PATH_LINE_TO: words.line_to(x(1), y(1)); break;
            case CAIRO_PATH_CURVE_TO: words.curve_to(x(1), y(1), x(2), y(2), x(3), y(3)); break;
            case CAIRO_PATH_CLOSE_PATH: words.close(); break;
        }
    }
    return words.text();
}

}  // namespace

GlyphOutlines::GlyphOutlines(const text::Shaper& shaper)
    : shaper_(shaper), surface_(cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1)), context_(cairo_create(surface_.get())),
      canvas_(context_.get(), shaper, TextAs::Outlines, Scaling::Smooth) {}

std::string GlyphOutlines::outline(frame::FaceId face, std::uint32_t glyph) {
    cairo_t* const cairo = context_.get();
    const cairo_glyph_t at_origin{glyph, 0, 0};
    cairo_set_font_face(cairo, static_cast<cairo_font_face_t*>(shaper_.cairo_font_face(face)));
    cairo_set_font_size(cairo, per_em);
    cairo_new_path(cairo);
    cairo_glyph_path(cairo, &at_origin, 1);
    const text::Owned<cairo_path_t, cairo_path_destroy> path(cairo_copy_path(cairo));
    require(path->status, "SVG");
    return words_of(*path);
}

}  // namespace wayfolio::output
