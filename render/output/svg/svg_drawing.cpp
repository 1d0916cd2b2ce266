#include "output/svg/svg_drawing.hpp"

#include "frame/overloaded.hpp"
#include "input/encoding.hpp"
#include "output/canvas.hpp"
#include "output/memory_stream.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <tuple>

namespace wayfolio::output {

namespace {

/// A number of SVG, rounded to a thousandth; fmt does not ask the locale.
std::string rounded(double value) { return fmt::format("{}", std::round(value * 1000) / 1000 + 0.0); }

std::string at(double x, double y) { return rounded(x) + " " + rounded(y); }
std::string at(frame::Point place) { return at(place.x.in(units::point), place.y.in(units::point)); }

std::string hex(frame::Colour colour) { return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue); }

std::string placed(const frame::Rect& box) {
    return fmt::format(R"(x="{}" y="{}" width="{}" height="{}")", svg_number(box.left), svg_number(box.top), svg_number(box.width),
                       svg_number(box.height));
}

std::string steps_of(const frame::Path& path) {
    std::string steps;
    for (const frame::PathStep& step : path.steps)
        steps += std::visit(
            frame::overloaded{
                [](const frame::MoveTo& move) { return "M" + at(move.to); }, [](const frame::LineTo& line) { return "L" + at(line.to); },
                [](const frame::CurveTo& curve) { return fmt::format("C{} {} {}", at(curve.control1), at(curve.control2), at(curve.to)); },
                [](const frame::ClosePath&) { return std::string("Z"); }},
            step);
    return steps;
}

std::string stroke_of(const frame::Stroke& stroke) {
    std::string words = fmt::format(R"( stroke="{}" stroke-width="{}")", hex(stroke.colour), svg_number(stroke.width));
    std::string dash;
    for (const frame::Paper length : stroke.dash) dash += (dash.empty() ? "" : " ") + svg_number(length);
    if (!dash.empty()) words += fmt::format(R"( stroke-dasharray="{}")", dash);
    if (stroke.cap == frame::Cap::Round) words += R"( stroke-linecap="round")";
    if (stroke.join == frame::Join::Round) words += R"( stroke-linejoin="round")";
    return words;
}

/// Outlines of glyphs, as Cairo makes them from a font.
class Outlines {
public:
    explicit Outlines(const text::Shaper& shaper)
        : shaper_(shaper), surface_(cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1)), context_(cairo_create(surface_.get())),
          canvas_(context_.get(), shaper, TextAs::Outlines, Scaling::Smooth) {}

    std::string outline(frame::FaceId face, frame::Paper size, std::uint32_t glyph) {
        cairo_t* cairo = context_.get();
        // Cairo keeps outlines in 1/256 of a unit: a larger one loses less.
        const double enlarged = size.in(units::point) * enlargement;
        const cairo_glyph_t at_origin{glyph, 0, 0};
        cairo_set_font_face(cairo, static_cast<cairo_font_face_t*>(shaper_.cairo_font_face(face)));
        cairo_set_font_size(cairo, enlarged);
        cairo_new_path(cairo);
        cairo_glyph_path(cairo, &at_origin, 1);
        const text::Owned<cairo_path_t, cairo_path_destroy> path(cairo_copy_path(cairo));
        require(path->status, "SVG");
        return words_of(*path);
    }

private:
    static constexpr double enlargement = 16;

    static std::string words_of(const cairo_path_t& path) {
        std::string words;
        for (int i = 0; i < path.num_data; i += path.data[i].header.length) {
            const cairo_path_data_t* step = &path.data[i];
            const auto point = [&](int n) { return at(step[n].point.x / enlargement, step[n].point.y / enlargement); };
            switch (step->header.type) {
                case CAIRO_PATH_MOVE_TO: words += "M" + point(1); break;
                case CAIRO_PATH_LINE_TO: words += "L" + point(1); break;
                case CAIRO_PATH_CURVE_TO: words += fmt::format("C{} {} {}", point(1), point(2), point(3)); break;
                case CAIRO_PATH_CLOSE_PATH: words += "Z"; break;
            }
        }
        return words;
    }

    const text::Shaper& shaper_;
    Surface surface_;
    Context context_;
    Canvas canvas_;  ///< its font options are those of all drawings
};

class SvgDrawing {
public:
    SvgDrawing(const text::Shaper& shaper, const std::string& prefix) : outlines_(shaper), prefix_(prefix) {}

    void draw(const std::vector<frame::Item>& items) {
        for (const frame::Item& item : items) std::visit([&](const auto& kind) { draw(kind); }, item);
    }
    [[nodiscard]] std::string drawn() const {
        const std::string definitions = definitions_.empty() ? "" : "<defs>\n" + definitions_ + "</defs>\n";
        return definitions + "<g fill=\"none\" stroke-miterlimit=\"10\">\n" + elements_ + "</g>\n";  // the limit is Cairo's
    }

private:
    void draw(const frame::Group& group) {
        if (group.clip) {
            const std::string id = fmt::format("{}clip{}", prefix_, clips_++);
            definitions_ += fmt::format("<clipPath id=\"{}\"><rect {}/></clipPath>\n", id, placed(*group.clip));
            elements_ += fmt::format("<g clip-path=\"url(#{})\">\n", id);
        }
        draw(group.items);
        if (group.clip) elements_ += "</g>\n";
    }

    void draw(const frame::Path& path) {
        const std::string fill = path.fill ? fmt::format(R"( fill="{}")", hex(*path.fill)) : "";
        elements_ += fmt::format("<path d=\"{}\"{}{}/>\n", steps_of(path), fill, path.stroke ? stroke_of(*path.stroke) : "");
    }

    void draw(const frame::GlyphRun& run) {
        std::string glyphs;
        for (const frame::Glyph& glyph : run.glyphs) {
            const std::string& id = id_of(run, glyph.id);
            if (id.empty()) continue;
            const std::string x = svg_number(glyph.x), y = svg_number(glyph.y),
                              turn = run.rotated ? fmt::format(R"x( transform="rotate(-90 {} {})")x", x, y) : "";
            glyphs += fmt::format("<use xlink:href=\"#{}\" x=\"{}\" y=\"{}\"{}/>", id, x, y, turn);
        }
        if (!glyphs.empty()) elements_ += fmt::format("<g fill=\"{}\">{}</g>\n", hex(run.colour), glyphs);
    }

    void draw(const frame::Image& image) {
        const char* const kind = image.format == frame::Image::Format::Png ? "png" : "svg+xml";
        elements_ +=
            fmt::format("<image {} xlink:href=\"data:image/{};base64,{}\"/>\n", placed(image.box), kind, input::base64(*image.bytes));
    }

    void draw(const frame::Link&) {}
    void draw(const frame::Bookmark&) {}

    /// The id of a glyph's outline, which is defined at its first use; "" for one without ink.
    const std::string& id_of(const frame::GlyphRun& run, std::uint32_t glyph) {
        const auto [known, is_new] = glyphs_.try_emplace({run.face.index, run.size.in(units::point), glyph});
        if (!is_new) return known->second;
        const std::string outline = outlines_.outline(run.face, run.size, glyph);
        if (outline.empty()) return known->second;
        known->second = fmt::format("{}glyph{}", prefix_, glyphs_.size());
        definitions_ += fmt::format("<path id=\"{}\" d=\"{}\"/>\n", known->second, outline);
        return known->second;
    }

    Outlines outlines_;
    const std::string& prefix_;
    std::map<std::tuple<std::uint32_t, double, std::uint32_t>, std::string> glyphs_;  ///< face, size and glyph
    int clips_ = 0;
    std::string definitions_, elements_;
};

}  // namespace

std::string svg_number(frame::Paper length) { return rounded(length.in(units::point)); }

std::string svg_drawing(const std::vector<frame::Item>& items, const text::Shaper& shaper, const std::string& prefix) {
    SvgDrawing drawing(shaper, prefix);
    drawing.draw(items);
    return drawing.drawn();
}

}  // namespace wayfolio::output
