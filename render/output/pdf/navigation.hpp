#pragma once
#include "frame/frame.hpp"
#include "output/pdf/write_pdf.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace wayfolio::output {

/// A place on a page to which a link or a bookmark leads.
struct Destination {
    std::size_t page;  ///< counted from 0
    frame::Paper left, above_bottom;
};

/// Of every anchor. @throws std::logic_error naming an anchor that two groups have
std::map<std::string, Destination> destinations_of(const std::vector<frame::Frame>& pages);

/// A point of a page, whose y goes down, as a destination.
Destination destination_at(const std::vector<frame::Frame>& pages, std::size_t page, frame::Point point);

/// As ISO 32000-1 12.3.2.2 writes it, the zoom left alone. @param page_objects object number of each page
std::string in_words(const Destination& destination, const std::vector<int>& page_objects);

/// The document outline of all bookmarks (ISO 32000-1 12.3.3), the outermost open; its object's number, or none where no page has a
/// bookmark.
/// @param page_objects object number of each page
std::optional<int> outline(const std::vector<frame::Frame>& pages, const std::vector<int>& page_objects, Objects& objects);

}  // namespace wayfolio::output
