#pragma once
#include "frame/frame.hpp"
#include "plot/tools.hpp"
#include "report/model/model.hpp"

namespace wayfolio::page {

/// Places a whole report: pages with running head and foot, page n of N, links and bookmarks.
/// @throws std::logic_error for an element too large for its page
std::vector<frame::Frame> lay_out(const report::Model& model, const plot::Tools& tools);

}  // namespace wayfolio::page
