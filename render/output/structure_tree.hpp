#pragma once
#include "output/object_texts.hpp"
#include "output/tag_record.hpp"

class QPDF;

namespace wayfolio::output {

/// The structure tree of the records, to be written in the place of Cairo's: artifacts stand outside it, elements that continue over
/// pages are one, figures have their alternative text and box, head cells their scope, links their description, notes an ID.
/// Cairo's elements are dropped from `file`: call it first, as that is quick only while no object was read. `drawn` is the file as Cairo wrote it.
/// @throws std::logic_error when the pages do not hold what was drawn
ObjectTexts structure_tree(QPDF& file, const std::string& drawn, const std::vector<TagRecord>& records);

}  // namespace wayfolio::output
