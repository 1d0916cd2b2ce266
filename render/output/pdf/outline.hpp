#pragma once
#include "frame/frame.hpp"
#include "output/pdf/object_texts.hpp"

#include <optional>
#include <vector>

namespace wayfolio::output {

/// The document outline of all bookmarks (ISO 32000-1 12.3.3), the outermost open; its object's number, or none where no page has a bookmark.
/// @param page_objects object number of each page
std::optional<int> outline(const std::vector<frame::Frame>& pages, const std::vector<int>& page_objects, NewObjects& objects);

}  // namespace wayfolio::output
