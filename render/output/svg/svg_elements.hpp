#pragma once
#include "frame/geometry.hpp"
#include "output/svg/svg_path.hpp"

#include <deque>
#include <string>
#include <vector>

namespace wayfolio::output {

/// The elements of a drawing in their order. What looks the same is one element: a tick joins the ticks before it, a label those on its
/// line, and of markers that are drawn in two pens by turns each half joins its like. Joining draws a thing earlier than it came; it is
/// done only past what the thing does not touch.
class SvgElements {
public:
    static constexpr int per_point = 100;  ///< lines of the grid of all paths: a twelfth of a dot at 600 dpi

    struct Element {
        std::string looks;         ///< its attributes
        frame::Point begin{};      ///< of glyphs: where the first stands
        SvgPath path{per_point};
        std::string glyphs{};
    };

    /// Lines and letters may lie over their like. Where two areas of one element lie over each other, one could cut a hole.
    enum class Like { MayTouch, Apart };

    /// The element that a part belongs to: an open one with the same `kind`, or `otherwise`.
    Element& with(const std::string& kind, const frame::Rect& bounds, Element otherwise, Like like = Like::MayTouch);
    /// A thing that nothing joins or passes.
    void add(const std::string& text);
    /// All of them as text, once.
    std::string written();

private:
    struct Open {
        Element element;
        std::string kind;
        std::vector<frame::Rect> parts;
    };
    void write(const Element& element);

    std::deque<Open> open_;
    std::string text_;
};

}  // namespace wayfolio::output
