#include "output/canvas.hpp"

#include "frame/overloaded.hpp"
#include "output/picture/picture.hpp"
#include "text/closes.hpp"

namespace wayfolio::output {

namespace {

using units::point;

double pt(frame::Paper length) { return length.in(point); }

void set_colour(cairo_t* cairo, frame::Colour colour) {
    cairo_set_source_rgb(cairo, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0);
}

void trace(cairo_t* cairo, const frame::Path& path) {
    cairo_new_path(cairo);
    for (const frame::PathStep& step : path.steps)
        std::visit(frame::overloaded{[&](const frame::MoveTo& move) { cairo_move_to(cairo, pt(move.to.x), pt(move.to.y)); },
                                     [&](const frame::LineTo& line) { cairo_line_to(cairo, pt(line.to.x), pt(line.to.y)); },
                                     [&](const frame::CurveTo& curve) {
                                         cairo_curve_to(cairo, pt(curve.control1.x), pt(curve.control1.y), pt(curve.control2.x),
                                                        pt(curve.control2.y), pt(curve.to.x), pt(curve.to.y));
                                     },
                                     [&](const frame::ClosePath&) { cairo_close_path(cairo); }},
                   step);
}

void set_stroke(cairo_t* cairo, const frame::Stroke& stroke) {
    std::vector<double> dash;
    for (const frame::Paper length : stroke.dash) dash.push_back(pt(length));
    set_colour(cairo, stroke.colour);
    cairo_set_line_width(cairo, pt(stroke.width));
    cairo_set_dash(cairo, dash.data(), static_cast<int>(dash.size()), 0);
    cairo_set_line_cap(cairo, stroke.cap == frame::Cap::Round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(cairo, stroke.join == frame::Join::Round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
}

cairo_matrix_t font_matrix(const frame::GlyphRun& run) {
    const double size = pt(run.size);
    cairo_matrix_t matrix;
    if (run.rotated)
        cairo_matrix_init(&matrix, 0, -size, size, 0, 0, 0);
    else
        cairo_matrix_init_scale(&matrix, size, size);
    return matrix;
}

}  // namespace

Canvas::Canvas(cairo_t* cairo, const text::Shaper& shaper, TextAs text, Scaling scaling)
    : cairo_(cairo), shaper_(shaper), text_(text), scaling_(scaling) {
    const text::Owned<cairo_font_options_t, cairo_font_options_destroy> options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(cairo_, options.get());
}

void Canvas::show(const frame::Path& path) {
    trace(cairo_, path);
    if (path.fill) {
        set_colour(cairo_, *path.fill);
        path.stroke ? cairo_fill_preserve(cairo_) : cairo_fill(cairo_);
    }
    if (path.stroke) {
        set_stroke(cairo_, *path.stroke);
        cairo_stroke(cairo_);
    }
    cairo_new_path(cairo_);
}

void Canvas::show(const frame::GlyphRun& run) {
    glyphs_.clear();
    for (const frame::Glyph& glyph : run.glyphs) glyphs_.push_back({glyph.id, pt(glyph.x), pt(glyph.y)});
    clusters_.clear();
    for (const frame::Cluster& cluster : run.clusters)
        clusters_.push_back({static_cast<int>(cluster.bytes), static_cast<int>(cluster.glyphs)});
    const cairo_matrix_t matrix = font_matrix(run);
    cairo_set_font_face(cairo_, static_cast<cairo_font_face_t*>(shaper_.cairo_font_face(run.face)));
    cairo_set_font_matrix(cairo_, &matrix);
    set_colour(cairo_, run.colour);
    if (text_ == TextAs::Outlines) {
        cairo_new_path(cairo_);
        cairo_glyph_path(cairo_, glyphs_.data(), static_cast<int>(glyphs_.size()));
        cairo_fill(cairo_);
        return;
    }
    cairo_show_text_glyphs(cairo_, run.text.data(), static_cast<int>(run.text.size()), glyphs_.data(),
                           static_cast<int>(glyphs_.size()), clusters_.data(), static_cast<int>(clusters_.size()),
                           cairo_text_cluster_flags_t{});
}

void Canvas::show(const frame::Image& image) { show_picture(cairo_, image, scaling_); }

void Canvas::clip(const frame::Rect& rect) {
    cairo_rectangle(cairo_, pt(rect.left), pt(rect.top), pt(rect.width), pt(rect.height));
    cairo_clip(cairo_);
}

void Canvas::show(const std::vector<frame::Item>& items) {
    for (const frame::Item& item : items)
        std::visit(
            frame::overloaded{[&](const frame::Group& group) {
                                  const SavedState saved(cairo_);
                                  if (group.clip) clip(*group.clip);
                                  show(group.items);
                              },
                              [](const frame::Link&) {}, [](const frame::Bookmark&) {}, [&](const auto& drawn) { show(drawn); }},
            item);
}

}  // namespace wayfolio::output
