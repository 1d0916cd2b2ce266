#pragma once
#include "page/composer.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// How much of a page a block needs below another one to begin there: a figure with what stands beside it, or a few rows. The paper's
/// height for a block that begins a page.
Paper least_height(const Composer& composer, const report::Block& block);

/// From its first baseline to its last ink, of what stands alone on a page; the paper's height where it takes several.
Paper height_alone(const Composer& composer, const report::Sections& text);
Paper height_alone(const Composer& composer, const report::Readings& readings);
/// The same with what stands beside it.
Paper height_alone(const Composer& composer, const report::Block& block);

}  // namespace wayfolio::page
