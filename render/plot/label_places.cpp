#include "plot/label_places.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::plot {
namespace {

bool meet(const frame::Rect& a, const frame::Rect& b) {
    return a.left < b.right() && b.left < a.right() && a.top < b.bottom() && b.top < a.bottom();
}

}  // namespace

void LabelPlaces::take_line(frame::Point from, frame::Point to) {
    constexpr double box = 3;  // pt
    const double dx = (to.x - from.x).in(units::point), dy = (to.y - from.y).in(units::point);
    const int pieces = 1 + static_cast<int>(std::hypot(dx, dy) / box);
    for (int i = 0; i <= pieces; ++i) {
        const double share = static_cast<double>(i) / pieces;
        const frame::Point at{from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share};
        take({at.x - units::point(1), at.y - units::point(1), units::point(2), units::point(2)});
    }
}

bool LabelPlaces::is_free(const frame::Rect& box) const {
    const bool in = box.left >= inside_.left && box.right() <= inside_.right() && box.top >= inside_.top && box.bottom() <= inside_.bottom();
    return in && std::ranges::none_of(taken_, [&](const frame::Rect& other) { return meet(box, other); });
}

std::optional<frame::Rect> LabelPlaces::place(const std::vector<frame::Rect>& wishes) {
    for (const frame::Rect& wish : wishes) {
        if (!is_free(wish)) continue;
        take(wish);
        return wish;
    }
    return std::nullopt;
}

}  // namespace wayfolio::plot
