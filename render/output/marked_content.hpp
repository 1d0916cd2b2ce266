#pragma once
#include "output/tag_record.hpp"

#include <string_view>
#include <vector>

namespace wayfolio::output {

/// For each record the number of its marked content on its page; none for a tag that holds other tags.
std::vector<std::optional<int>> marked_content_numbers(const std::vector<TagRecord>& records);

/// The content of a page as Cairo wrote it, with artifacts named as what they are, so that their numbers mean nothing any more.
/// @param types of the tags with marked content on this page, in the order of drawing
/// @throws std::logic_error when the page does not hold the marked content of exactly these tags in this order
std::string with_artifacts_named(std::string_view content, const std::vector<std::string>& types);

}  // namespace wayfolio::output
