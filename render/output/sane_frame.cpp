#include "output/sane_frame.hpp"

#include "frame/overloaded.hpp"
#include "frame/walk.hpp"
#include "output/output.hpp"

#include <cmath>
#include <initializer_list>

namespace wayfolio::output {

namespace {

using units::point;

constexpr double farthest = 14400;

void require_near(std::initializer_list<frame::Paper> numbers, const char* what) {
    for (const frame::Paper number : numbers) {
        const double value = number.in(point);
        if (!std::isfinite(value))
            throw files::OutputFailed("page", std::string("a coordinate of a ") + what + " is not a finite number",
                               /*cannot_create=*/false);
        if (std::abs(value) > farthest)
            throw files::OutputFailed("page", std::string("a ") + what + " lies off any sane page", /*cannot_create=*/false);
    }
}

void require_near(const frame::Rect& rect, const char* what) {
    require_near({rect.left, rect.top, rect.width, rect.height}, what);
}

void check(const frame::Path& path) {
    for (const frame::PathStep& step : path.steps)
        std::visit(
            frame::overloaded{[](const frame::MoveTo& move) {
                                  require_near({move.to.x, move.to.y}, "path");
                              },
                              [](const frame::LineTo& line) {
                                  require_near({line.to.x, line.to.y}, "path");
                              },
                              [](const frame::CurveTo& c) {
                                  require_near({c.control1.x, c.control1.y, c.control2.x, c.control2.y, c.to.x, c.to.y}, "path");
                              },
                              [](const frame::ClosePath&) {}},
            step);
    if (!path.stroke) return;
    require_near({path.stroke->width}, "stroke");
    for (const frame::Paper length : path.stroke->dash) require_near({length}, "dash");
}

void check(const frame::GlyphRun& run) {
    require_near({run.origin.x, run.origin.y, run.size}, "text");
    for (const frame::Glyph& glyph : run.glyphs) require_near({glyph.x, glyph.y}, "glyph");
}

void check(const frame::Image& image) { require_near(image.box, "picture"); }
void check(const frame::Link& link) { require_near(link.box, "link"); }
void check(const frame::Bookmark& bookmark) { require_near({bookmark.at.x, bookmark.at.y}, "bookmark"); }

void check(const frame::Group& group) {
    if (group.clip) require_near(*group.clip, "clip");
    if (group.box) require_near(*group.box, "figure box");
}

}  // namespace

void require_sane(const frame::Frame& frame) {
    require_near({frame.width, frame.height}, "page");
    if (frame.width <= frame::Paper{} || frame.height <= frame::Paper{})
        throw files::OutputFailed("page", "a page has no size", /*cannot_create=*/false);
    frame::walk(frame.items, [](const auto& item) { check(item); });
}

}  // namespace wayfolio::output
