#include "output/svg/svg_drawing.hpp"

#include "frame/bounds.hpp"
#include "frame/overloaded.hpp"
#include "input/encoding.hpp"
#include "output/memory_stream.hpp"
#include "output/svg/glyph_outlines.hpp"
#include "output/svg/svg_elements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace wayfolio::output {

namespace {

using units::point;

std::string hex(frame::Colour colour) { return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue); }

std::string placed(const frame::Rect& box) {
    return fmt::format(R"(x="{}" y="{}" width="{}" height="{}")", svg_number(box.left), svg_number(box.top), svg_number(box.width),
                       svg_number(box.height));
}

void append(SvgPath& to, const frame::Path& path) {
    const auto x = [](const frame::Point& place) { return place.x.in(point); };
    const auto y = [](const frame::Point& place) { return place.y.in(point); };
    for (const frame::PathStep& step : path.steps)
        std::visit(frame::overloaded{[&](const frame::MoveTo& move) { to.move_to(x(move.to), y(move.to)); },
                                     [&](const frame::LineTo& line) { to.line_to(x(line.to), y(line.to)); },
                                     [&](const frame::CurveTo& curve) {
                                         to.curve_to(x(curve.control1), y(curve.control1), x(curve.control2), y(curve.control2),
                                                     x(curve.to), y(curve.to));
                                     },
                                     [&](const frame::ClosePath&) { to.close(); }},
                   step);
}

bool is_line(const frame::PathStep& step) {
    return std::holds_alternative<frame::LineTo>(step) || std::holds_alternative<frame::CurveTo>(step);
}

/// Where no line follows another there is nothing to join.
bool has_corners(const frame::Path& path) {
    const auto goes_on = [](const auto& one, const auto& next) { return is_line(one) && !std::holds_alternative<frame::MoveTo>(next); };
    return std::ranges::adjacent_find(path.steps, goes_on) != path.steps.end();
}

std::string pen_of(const frame::Path& path) {
    if (!path.stroke) return {};
    const frame::Stroke& stroke = *path.stroke;
    std::string words = fmt::format(R"( stroke="{}" stroke-width="{}")", hex(stroke.colour), svg_number(stroke.width));
    std::string dash;
    for (const frame::Paper length : stroke.dash) dash += (dash.empty() ? "" : " ") + svg_number(length);
    if (!dash.empty()) words += fmt::format(R"( stroke-dasharray="{}")", dash);
    if (stroke.cap == frame::Cap::Round) words += R"( stroke-linecap="round")";
    if (stroke.join == frame::Join::Miter && has_corners(path)) words += R"( stroke-linejoin="miter")";
    return words;
}

/// What runs have in common that can be one group: colour, size, direction and the line they stand on.
std::string line_of(const frame::GlyphRun& run) {
    return fmt::format("{} {} {} {}", hex(run.colour), run.size.in(point), run.rotated,
                       (run.rotated ? run.origin.x : run.origin.y).in(point));
}

class SvgDrawing {
public:
    SvgDrawing(const text::Shaper& shaper, const std::string& prefix) : outlines_(shaper), prefix_(prefix) {}

    void draw(const std::vector<frame::Item>& items) {
        for (const frame::Item& item : items) std::visit([&](const auto& kind) { draw(kind); }, item);
    }
    [[nodiscard]] std::string drawn() {
        const std::string definitions = definitions_.empty() ? "" : "<defs>\n" + definitions_ + "</defs>\n";
        // Cairo's limit of a miter.
        return definitions + "<g fill=\"none\" stroke-linejoin=\"round\" stroke-miterlimit=\"10\">\n" + elements_.written() + "</g>\n";
    }

private:
    void draw(const frame::Group& group) {
        if (group.clip) {
            const std::string id = fmt::format("{}c{}", prefix_, clips_++);
            definitions_ += fmt::format("<clipPath id=\"{}\"><rect {}/></clipPath>\n", id, placed(*group.clip));
            elements_.add(fmt::format("<g clip-path=\"url(#{})\">\n", id));
        }
        draw(group.items);
        if (group.clip) elements_.add("</g>\n");
    }

    void draw(const frame::Path& path) {
        const auto bounds = frame::bounds(path);
        if (!bounds) return;
        const std::string looks = (path.fill ? fmt::format(R"( fill="{}")", hex(*path.fill)) : "") + pen_of(path);
        append(elements_.with(looks, *bounds, {.looks = looks}, path.fill ? SvgElements::Like::Apart : SvgElements::Like::MayTouch).path,
               path);
    }

    /// On the grid of the outlines: glyphs stand at whole numbers along their line.
    void draw(const frame::GlyphRun& run) {
        const double em = run.size.in(point) / GlyphOutlines::per_em;
        const std::string looks = fmt::format(" fill=\"{}\" transform=\"translate({} {}){} scale({:.9})\"", hex(run.colour),
                                              svg_number(run.origin.x), svg_number(run.origin.y), run.rotated ? " rotate(-90)" : "", em);
        SvgElements::Element& line = elements_.with(line_of(run), frame::bounds(run), {.looks = looks, .begin = run.origin});
        for (const frame::Glyph& glyph : run.glyphs) {
            const std::string& id = id_of(run.face, glyph.id);
            if (id.empty()) continue;
            const double right = (glyph.x - line.begin.x).in(point), down = (glyph.y - line.begin.y).in(point);
            const auto place = [&](const char* name, double way) {
                const long long units = std::llround(way / em);
                return units == 0 ? std::string() : fmt::format(" {}=\"{}\"", name, units);
            };
            line.glyphs += fmt::format("<use xlink:href=\"#{}\"{}{}/>", id, place("x", run.rotated ? -down : right),
                                       place("y", run.rotated ? right : down));
        }
    }

    void draw(const frame::Image& image) {
        const char* const kind = image.format == frame::Image::Format::Png ? "png" : "svg+xml";
        elements_.add(
            fmt::format("<image {} xlink:href=\"data:image/{};base64,{}\"/>\n", placed(image.box), kind, input::base64(*image.bytes)));
    }

    void draw(const frame::Link&) {}
    void draw(const frame::Bookmark&) {}

    /// The id of a glyph's outline, which is defined at its first use; "" for one without ink.
    const std::string& id_of(frame::FaceId face, std::uint32_t glyph) {
        const auto [known, is_new] = glyphs_.try_emplace({face.index, glyph});
        if (!is_new) return known->second;
        const std::string outline = outlines_.outline(face, glyph);
        if (outline.empty()) return known->second;
        known->second = fmt::format("{}{}", prefix_, glyphs_.size());
        definitions_ += fmt::format("<path id=\"{}\" d=\"{}\"/>\n", known->second, outline);
        return known->second;
    }

    GlyphOutlines outlines_;
    const std::string& prefix_;
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::string> glyphs_;  ///< face and glyph
    int clips_ = 0;
    SvgElements elements_;
    std::string definitions_;
};

}  // namespace

std::string svg_number(frame::Paper length) { return svg_number(length.in(point)); }

std::string svg_drawing(const std::vector<frame::Item>& items, const text::Shaper& shaper, const std::string& prefix) {
    SvgDrawing drawing(shaper, prefix);
    drawing.draw(items);
    return drawing.drawn();
}

}  // namespace wayfolio::output
