// wayfolio-floor PAGES FILE.pdf|FILE.svg [ROUNDS]: paints finished pages, as wayfolio-pages has kept them, on a surface of
// Cairo's without tags, attachments or anything else of a finished report. What it costs is the floor under what a report can cost through
// Cairo. It takes nothing of text/ and output/: no Pango, no digests.
#include "bench/floor/frame_file.hpp"
#include "frame/overloaded.hpp"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <fmt/format.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace {

using namespace wayfolio;

double pt(frame::Paper length) { return length.in(units::point); }

void require(bool good, const char* what) {
    if (!good) throw std::runtime_error(what);
}

std::vector<cairo_font_face_t*> open_faces(const std::vector<std::string>& files) {
    static FT_Library library;
    require(FT_Init_FreeType(&library) == 0, "FreeType does not start");
    std::vector<cairo_font_face_t*> faces;
    for (const std::string& file : files) {
        FT_Face face = nullptr;
        require(FT_New_Face(library, file.c_str(), 0, &face) == 0, "a font does not open");
        faces.push_back(cairo_ft_font_face_create_for_ft_face(face, FT_LOAD_NO_HINTING));
    }
    return faces;
}

class Painter {
public:
    Painter(cairo_t* cairo, const std::vector<cairo_font_face_t*>& faces) : cairo_(cairo), faces_(faces) {
        cairo_font_options_t* options = cairo_font_options_create();
        cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
        cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
        cairo_set_font_options(cairo_, options);
        cairo_font_options_destroy(options);
    }

    void show(const std::vector<frame::Item>& items) {
        for (const frame::Item& item : items)
            std::visit(frame::overloaded{[&](const frame::Group& one) { show(one); }, [&](const frame::Path& one) { show(one); },
                                         [&](const frame::GlyphRun& one) { show(one); }, [](const auto&) {}},
                       item);
    }

private:
    void show(const frame::Group& group) {
        if (!group.clip) return show(group.items);
        cairo_save(cairo_);
        cairo_rectangle(cairo_, pt(group.clip->left), pt(group.clip->top), pt(group.clip->width), pt(group.clip->height));
        cairo_clip(cairo_);
        show(group.items);
        cairo_restore(cairo_);
    }
    void show(const frame::Path& path) {
        for (const frame::PathStep& step : path.steps) add(step);
        if (path.fill) {
            colour(*path.fill);
            cairo_fill_preserve(cairo_);
        }
        if (path.stroke) stroke(*path.stroke);
        cairo_new_path(cairo_);
    }
    void add(const frame::PathStep& step) {
        std::visit(frame::overloaded{[&](const frame::MoveTo& one) { cairo_move_to(cairo_, pt(one.to.x), pt(one.to.y)); },
                                     [&](const frame::LineTo& one) { cairo_line_to(cairo_, pt(one.to.x), pt(one.to.y)); },
                                     [&](const frame::CurveTo& one) {
                                         cairo_curve_to(cairo_, pt(one.control1.x), pt(one.control1.y), pt(one.control2.x),
                                                        pt(one.control2.y), pt(one.to.x), pt(one.to.y));
                                     },
                                     [&](const frame::ClosePath&) { cairo_close_path(cairo_); }},
                   step);
    }
    void stroke(const frame::Stroke& with) {
        dash_.clear();
        for (const frame::Paper length : with.dash) dash_.push_back(pt(length));
        colour(with.colour);
        cairo_set_line_width(cairo_, pt(with.width));
        cairo_set_dash(cairo_, dash_.data(), static_cast<int>(dash_.size()), 0);
        cairo_set_line_cap(cairo_, with.cap == frame::Cap::Round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
        cairo_set_line_join(cairo_, with.join == frame::Join::Round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
        cairo_stroke_preserve(cairo_);
    }
    void show(const frame::GlyphRun& run) {
        glyphs_.clear();
        clusters_.clear();
        for (const frame::Glyph& glyph : run.glyphs) glyphs_.push_back({glyph.id, pt(glyph.x), pt(glyph.y)});
        for (const frame::Cluster& one : run.clusters) clusters_.push_back({static_cast<int>(one.bytes), static_cast<int>(one.glyphs)});
        const double size = pt(run.size);
        cairo_matrix_t matrix;
        cairo_matrix_init(&matrix, run.rotated ? 0 : size, run.rotated ? -size : 0, run.rotated ? size : 0, run.rotated ? 0 : size, 0, 0);
        cairo_set_font_face(cairo_, faces_.at(run.face.index));
        cairo_set_font_matrix(cairo_, &matrix);
        colour(run.colour);
        cairo_show_text_glyphs(cairo_, run.text.data(), static_cast<int>(run.text.size()), glyphs_.data(),
                               static_cast<int>(glyphs_.size()), clusters_.data(), static_cast<int>(clusters_.size()),
                               cairo_text_cluster_flags_t{});
    }
    void colour(frame::Colour colour) { cairo_set_source_rgb(cairo_, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0); }

    cairo_t* cairo_;
    const std::vector<cairo_font_face_t*>& faces_;
    std::vector<double> dash_;
    std::vector<cairo_glyph_t> glyphs_;
    std::vector<cairo_text_cluster_t> clusters_;
};

void paint(const bench::Unpacked& all, const std::vector<cairo_font_face_t*>& faces, const std::string& file) {
    const frame::Frame& first = all.pages.at(0);
    const bool svg = file.ends_with(".svg");
    cairo_surface_t* surface = (svg ? cairo_svg_surface_create : cairo_pdf_surface_create)(file.c_str(), pt(first.width), pt(first.height));
    cairo_t* cairo = cairo_create(surface);
    Painter painter(cairo, faces);
    for (const frame::Frame& page : all.pages) {
        if (!svg) cairo_pdf_surface_set_size(surface, pt(page.width), pt(page.height));
        painter.show(page.items);
        cairo_show_page(cairo);
    }
    cairo_surface_finish(surface);
    require(cairo_status(cairo) == CAIRO_STATUS_SUCCESS && cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS, "Cairo failed");
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

}  // namespace

int main(int count, char** words) {
    if (count < 3) {
        fmt::print(stderr, "wayfolio-floor PAGES FILE.pdf|FILE.svg [ROUNDS]\n");
        return 2;
    }
    std::ifstream file(words[1], std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    const bench::Unpacked all = bench::unpacked(bytes);
    const std::vector<cairo_font_face_t*> faces = open_faces(all.font_files);
    const int rounds = count > 3 ? std::atoi(words[3]) : 1;
    for (int i = 0; i < rounds; ++i) paint(all, faces, words[2]);
}
