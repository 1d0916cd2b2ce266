#pragma once
#include "output/pdf/tag_record.hpp"

#include <string_view>
#include <vector>

namespace wayfolio::output {

/// For each record the number of its marked content on its page; none for an element that holds others.
std::vector<std::optional<int>> marked_content_numbers(const std::vector<TagRecord>& records);

/// The content of a page as Cairo wrote it, with each mark named as what it is, and artifacts without a number.
/// @param types of the records with marked content on this page, in the order of drawing
/// @throws std::logic_error when the page does not hold the marked content of exactly these in this order
std::string with_types_named(std::string_view content, const std::vector<std::string>& types);

}  // namespace wayfolio::output
