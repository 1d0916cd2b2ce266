#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// Heading with bookmark and anchor, lead sentence, body. Leaves composer.y on the first free grid baseline,
/// a block's gap below. Starts at composer.y.
/// @return the first baseline for what stands beside it in the margin, on the page where the opening ends
Paper place_opening(Composer& composer, const report::Opening& opening);

/// The same for a chapter of text. Below another block its lead is strong text before the body: large is what heads a page or a figure.
void place_text_opening(Composer& composer, const report::Opening& opening);
/// Its height below another block.
Paper text_opening_height(const Composer& composer, const report::Opening& opening);

/// From the first baseline of an opening to that of what follows it.
Paper opening_height(const Composer& composer, const report::Opening& opening);

/// Heading and lead of it alone: composer.y is then their last baseline.
void place_lead(Composer& composer, const report::Opening& opening);

constexpr double lines_below_continued = 2;
/// "Label, continued": said once, however often it goes on.
std::string continued_label(const std::string& label);

/// "Label continued" at the top of a page that goes on with a block, so many lines above what follows.
void place_continued(Composer& composer, const std::string& label, double lines_below = lines_below_continued);

/// A new page that goes on with a block; in columns of text, the second one first.
void turn_page(Composer& composer, const std::string& label, double lines_below = lines_below_continued);

}  // namespace wayfolio::page
