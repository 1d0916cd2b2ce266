#pragma once
#include "frame/geometry.hpp"

#include <optional>
#include <vector>

namespace wayfolio::plot {

/// Remembers what paper is taken, so that a label never lands on another or on a curve.
class LabelPlaces {
public:
    explicit LabelPlaces(frame::Rect inside) : inside_(inside) {}
    void take(const frame::Rect& box) { taken_.push_back(box); }
    /// What is only tinted: over it a label can be read where nothing is free.
    void take_tint(const frame::Rect& box) { tints_.push_back(box); }
    /// What no label may ever cross, also where nothing is free: limit lines, and other labels.
    void take_firmly(const frame::Rect& box) {
        take(box);
        firm_.push_back(box);
    }
    /// The first of `wishes` that lies inside and meets no line, marker or label (then taken), or nothing.
    std::optional<frame::Rect> place_over_tints(const std::vector<frame::Rect>& wishes);
    /// The first of `wishes` that lies inside and meets nothing firm (then taken), or nothing.
    std::optional<frame::Rect> place_over_soft(const std::vector<frame::Rect>& wishes);
    /// A level stroke with the air about it.
    void take_level(frame::Paper left, frame::Paper right, frame::Paper y);
    /// A line taken as a row of small boxes.
    void take_line(frame::Point from, frame::Point to);
    [[nodiscard]] bool is_free(const frame::Rect& box) const;
    /// The first of `wishes` that is free (and then taken), or nothing; one is free for another label beside it only where none is without:
    /// two that follow each other closely are read as one.
    std::optional<frame::Rect> place(const std::vector<frame::Rect>& wishes);

private:
    [[nodiscard]] bool follows_a_label(const frame::Rect& box) const;
    [[nodiscard]] bool lies_inside(const frame::Rect& box) const;
    /// The first that lies inside and meets nothing of these, then taken.
    std::optional<frame::Rect> place_off(const std::vector<frame::Rect>& these, const std::vector<frame::Rect>& wishes);
    frame::Rect inside_;
    std::vector<frame::Rect> tints_, taken_, firm_;
};

}  // namespace wayfolio::plot
