#pragma once
#include "output/qpdf.hpp"
#include "output/tag_record.hpp"

#include <vector>

namespace wayfolio::output {

/// For each record the number of its marked content on its page; none for a tag that holds other tags. Artifacts are named in the
/// pages as what they are, so that their numbers mean nothing any more.
/// @throws std::logic_error when the pages do not hold the marked content of exactly these tags in this order
std::vector<std::optional<int>> number_marked_content(QPDF& file, const std::vector<TagRecord>& records);

}  // namespace wayfolio::output
