#include "plot/label_places.hpp"

#include "plot/spacing.hpp"

#include <algorithm>
#include <cmath>

namespace wayfolio::plot {
namespace {

constexpr frame::Paper air = units::point(line_air);

bool meet(const frame::Rect& a, const frame::Rect& b) {
    return a.left < b.right() && b.left < a.right() && a.top < b.bottom() && b.top < a.bottom();
}

bool meets_any(const std::vector<frame::Rect>& all, const frame::Rect& box) {
    return std::ranges::any_of(all, [&](const frame::Rect& other) { return meet(box, other); });
}

}  // namespace

void LabelPlaces::take_level(frame::Paper left, frame::Paper right, frame::Paper y) { take({left, y - air, right - left, air * 2}); }

void LabelPlaces::take_line(frame::Point from, frame::Point to) {
    constexpr double step =
        3;  // points from box to box: they overlap along lines that lie flat, and letters are wider than the gaps of steep ones
    const double dx = (to.x - from.x).in(units::point), dy = (to.y - from.y).in(units::point);
    const int pieces = 1 + static_cast<int>(std::hypot(dx, dy) / step);
    for (int i = 0; i <= pieces; ++i) {
        const double share = static_cast<double>(i) / pieces;
        const frame::Point at{from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share};
        take({at.x - air, at.y - air, air * 2, air * 2});
    }
}

bool LabelPlaces::lies_inside(const frame::Rect& box) const {
    return box.left >= inside_.left && box.right() <= inside_.right() && box.top >= inside_.top && box.bottom() <= inside_.bottom();
}

bool LabelPlaces::is_free(const frame::Rect& box) const {
    return lies_inside(box) && !meets_any(taken_, box) && !meets_any(tints_, box);
}

bool LabelPlaces::follows_a_label(const frame::Rect& box) const {
    constexpr frame::Paper space = units::point(4);
    const frame::Rect wide{box.left - space, box.top, box.width + space * 2, box.height};
    return meets_any(firm_, wide);
}

std::optional<frame::Rect> LabelPlaces::place(const std::vector<frame::Rect>& wishes) {
    for (const bool also_beside_another : {false, true})
        for (const frame::Rect& wish : wishes) {
            if (!is_free(wish) || (!also_beside_another && follows_a_label(wish))) continue;
            take_firmly(wish);
            return wish;
        }
    return std::nullopt;
}

std::optional<frame::Rect> LabelPlaces::place_off(const std::vector<frame::Rect>& these, const std::vector<frame::Rect>& wishes) {
    const auto found = std::ranges::find_if(wishes, [&](const frame::Rect& wish) { return lies_inside(wish) && !meets_any(these, wish); });
    if (found == wishes.end()) return std::nullopt;
    take_firmly(*found);
    return *found;
}

std::optional<frame::Rect> LabelPlaces::place_over_tints(const std::vector<frame::Rect>& wishes) { return place_off(taken_, wishes); }

std::optional<frame::Rect> LabelPlaces::place_over_soft(const std::vector<frame::Rect>& wishes) { return place_off(firm_, wishes); }

}  // namespace wayfolio::plot
