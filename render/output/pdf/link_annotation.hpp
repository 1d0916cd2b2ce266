#pragma once
#include "output/pdf/destinations.hpp"
#include "output/pdf/tag_record.hpp"

namespace wayfolio::output {

/// The annotation that makes a link of an element: over all its areas, without a border, printed (ISO 32000-1 12.5.6.5).
/// @param link a record that has links
/// @param owner key of its element in the parent tree
/// @throws std::logic_error naming a destination that no group on any page has as its anchor
std::string link_annotation(const TagRecord& link, int owner, const std::map<std::string, Destination>& destinations, const std::vector<int>& page_objects);

}  // namespace wayfolio::output
