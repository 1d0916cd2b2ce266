#pragma once
#include "frame/frame.hpp"
#include "layouts/layout.hpp"
#include "report/model/text.hpp"
#include "text/shaper.hpp"

#include <string>
#include <vector>

namespace wayfolio::plot {

using frame::Colour;
using frame::Item;
using frame::Paper;
using frame::Point;
using frame::Rect;
using layouts::ColourRole;
using layouts::PenRole;
using layouts::SizeRole;
using layouts::TypeRole;

/// What every drawing function needs besides its values. The shaper is for one thread at a time; the caller keeps both alive.
struct Tools {
    const layouts::Layout& layout;
    const text::Shaper& shaper;
};

enum class Align { Left, Centre, Right };

/// How a line of text looks.
struct Look {
    TypeRole type = TypeRole::Small;
    ColourRole colour = ColourRole::Ink;
};

constexpr Paper pt(double points) { return units::point(points); }

/// Pieces in the layout's faces: symbols italic, strong semi-bold, quiet grey, the rest in the look's colour.
std::vector<text::Piece> pieces(const Tools& tools, const report::Text& words, const Look& look);
text::TextStyle text_style(const Tools& tools, const Look& look);

/// One line, shaped.
text::Line shape(const Tools& tools, const report::Text& words, const Look& look);
Paper width_of(const Tools& tools, const report::Text& words, const Look& look);

/// Puts one line with its baseline at `at`; Align says which end (or the middle) of the line stands there. Returns its width.
/// @throws text::GlyphMissing, as all that sets text
Paper put(std::vector<Item>& into, const Tools& tools, const report::Text& words, const Look& look, Point at, Align align = Align::Left);

/// A group with a role around what `items` holds.
frame::Group grouped(frame::Role role, std::vector<Item> items);

}  // namespace wayfolio::plot
