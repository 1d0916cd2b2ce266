#pragma once
#include "frame/frame.hpp"

#include <string>
#include <vector>

namespace wayfolio::output {

/// A URI as Cairo's tag attributes and PDF strings take it: anything but plain printable ASCII is percent-encoded (RFC
/// 3986, 2.1).
std::string escaped_uri(const std::string& uri);

/// Cairo's rect attribute over all areas of one link, grown to whole points: its numbers are read in the current locale.
std::string rect_attribute(const std::vector<const frame::Link*>& links);

/// @throws std::logic_error naming a destination that no group on any page has as its anchor, or an anchor that two groups have
void require_anchors(const std::vector<frame::Frame>& pages);

}  // namespace wayfolio::output
