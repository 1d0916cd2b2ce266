#include "frame/bounds.hpp"

#include "frame/overloaded.hpp"
#include "frame/walk.hpp"

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

/// What is seen of the items of a walk: each cut by the clips around it.
struct Covered {
    std::optional<Rect> all;

    void operator()(const Path& path, const Around& around) { seen(bounds(path), around); }
    void operator()(const GlyphRun& run, const Around& around) { seen(bounds(run), around); }
    void operator()(const Image& image, const Around& around) { seen(image.box, around); }
    void operator()(const Link& link, const Around& around) { seen(link.box, around); }

private:
    void seen(std::optional<Rect> box, const Around& around) {
        for (const Group* group : around)
            if (box && group->clip) box = common(*box, *group->clip);
        if (box) take(all, *box);
    }
};

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
    Covered covered;
    walk(item, covered);
    return covered.all;
}

std::optional<Rect> bounds(const std::vector<Item>& items) {
    Covered covered;
    walk(items, covered);
    return covered.all;
}

}  // namespace wayfolio::frame
