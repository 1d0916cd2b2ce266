#pragma once
#include "frame/frame.hpp"

namespace wayfolio::output {

/// Cairo draws NaN coordinates and pages of any size without complaint: checked here, before drawing.
/// @throws files::OutputFailed when a number is not finite, a page has no size, or something lies beyond 14 400 pt (the largest page of
/// ISO 32000-1 annex C)
void require_sane(const frame::Frame& frame);

}  // namespace wayfolio::output
