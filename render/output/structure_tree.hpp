#pragma once
#include "output/tag_record.hpp"

class QPDF;

namespace wayfolio::output {

/// Completes Cairo's structure tree from the records of what was drawn: artifacts leave the tree, elements that continue over
/// pages become one, figures get their alternative text and box, head cells their scope, links their description, notes an ID.
/// @throws std::logic_error when tree and records do not agree in number and type
void finish_structure(QPDF& file, const std::vector<TagRecord>& records);

}  // namespace wayfolio::output
