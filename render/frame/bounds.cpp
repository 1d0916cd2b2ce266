#include "frame/bounds.hpp"

#include "frame/overloaded.hpp"

#include <algorithm>

namespace wayfolio::frame {

namespace {

Rect from_edges(Paper left, Paper top, Paper right, Paper bottom) { return {left, top, right - left, bottom - top}; }

void take(std::optional<Rect>& all, const Rect& one) { all = all ? joined(*all, one) : one; }

void take(std::optional<Rect>& all, Point point) { take(all, Rect{point.x, point.y, {}, {}}); }

std::optional<Rect> common(const Rect& one, const Rect& other) {
    const Paper left = std::max(one.left, other.left), right = std::min(one.right(), other.right());
    const Paper top = std::max(one.top, other.top), bottom = std::min(one.bottom(), other.bottom());
    if (right < left || bottom < top) return std::nullopt;
    return from_edges(left, top, right, bottom);
}

}  // namespace

Rect joined(const Rect& one, const Rect& other) {
    return from_edges(std::min(one.left, other.left), std::min(one.top, other.top), std::max(one.right(), other.right()),
                      std::max(one.bottom(), other.bottom()));
}

Rect bounds(const GlyphRun& run) {
    const auto [x, y] = run.origin;
    if (run.rotated) return from_edges(x - run.ascent, y - run.advance, x + run.descent, y);
    return from_edges(x, y - run.ascent, x + run.advance, y + run.descent);
}

std::optional<Rect> bounds(const Path& path) {
    std::optional<Rect> all;
    for (const PathStep& step : path.steps)
        std::visit(
            overloaded{[&](const MoveTo& move) { take(all, move.to); }, [&](const LineTo& line) { take(all, line.to); },
                       [&](const CurveTo& curve) { take(all, curve.control1), take(all, curve.control2), take(all, curve.to); },
                       [](const ClosePath&) {}},
            step);
    if (!all || !path.stroke) return all;
    const Paper half = path.stroke->width / 2;
    return from_edges(all->left - half, all->top - half, all->right() + half, all->bottom() + half);
}

std::optional<Rect> bounds(const Item& item) {
    return std::visit(
        overloaded{[](const Group& group) {
                       std::optional<Rect> all = bounds(group.items);
                       return all && group.clip ? common(*all, *group.clip) : all;
                   },
                   [](const Path& path) { return bounds(path); }, [](const GlyphRun& run) { return std::optional(bounds(run)); },
                   [](const Image& image) { return std::optional(image.box); },
                   [](const Link& link) { return std::optional(link.box); },
                   [](const Bookmark&) { return std::optional<Rect>(); }},
        item);
}

std::optional<Rect> bounds(const std::vector<Item>& items) {
    std::optional<Rect> all;
    for (const Item& item : items)
        if (const auto one = bounds(item)) take(all, *one);
    return all;
}

}  // namespace wayfolio::frame
