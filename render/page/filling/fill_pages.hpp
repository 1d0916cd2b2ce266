#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// The blocks of a report in their places, page after page, without what every page shows alike.
/// @throws std::logic_error for an element too large for its page
/// @throws text::GlyphMissing for a character that no private font has: the first in the report's order
std::vector<Draft> fill_pages(const report::Model& model, const Tools& tools);

}  // namespace wayfolio::page
