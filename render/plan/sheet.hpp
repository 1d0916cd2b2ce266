#pragma once
#include "frame/frame.hpp"
#include "layouts/layout.hpp"
#include "plan/plan.hpp"
#include "text/shaper.hpp"

#include <string>
#include <vector>

namespace wayfolio::plan {

/// The plan on paper, to be filled by hand: a page that tells it, then a table for each series with a row for each target and a column for
/// each run, in the order in which they are made.
std::vector<frame::Frame> sheet_pages(const Planned& planned, const layouts::Layout& layout, const text::Shaper& shaper);

/// The same as PDF bytes, with the empty document inside.
std::string sheet_pdf(const Planned& planned, const layouts::Layout& layout, const text::Shaper& shaper);

}  // namespace wayfolio::plan
