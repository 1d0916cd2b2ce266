#pragma once
#include "output/qpdf.hpp"
#include "output/tag_record.hpp"

namespace wayfolio::output {

/// Gives a structure element what its record says beyond the type: a figure its alternative text and box, a table cell its scope and
/// span.
void set_attributes(Handle element, const TagRecord& record);

}  // namespace wayfolio::output
