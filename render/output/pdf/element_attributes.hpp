#pragma once
#include "output/pdf/tag_record.hpp"

#include <string>

namespace wayfolio::output {

/// What an element says of itself, as the entries of a PDF dictionary: alternative text and box of a figure, scope and span of a
/// table cell; empty for the others.
std::string attributes_of(const TagRecord& record);

}  // namespace wayfolio::output
