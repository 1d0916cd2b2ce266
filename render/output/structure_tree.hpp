#pragma once
#include "output/tag_record.hpp"

class QPDF;

namespace wayfolio::output {

/// Puts the structure tree of the records in the place of Cairo's: artifacts stand outside it, elements that continue over pages are
/// one, figures have their alternative text and box, head cells their scope, links their description, notes an ID. `drawn` is the
/// file as Cairo wrote it. Call it first: it is quick only while no object was read.
/// @throws std::logic_error when the pages do not hold what was drawn
void finish_structure(QPDF& file, const std::string& drawn, const std::vector<TagRecord>& records);

}  // namespace wayfolio::output
