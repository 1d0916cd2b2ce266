#pragma once
#include "output/pdf/navigation.hpp"
#include "output/pdf/pages/tag_record.hpp"

namespace wayfolio::output {

/// The structure tree, and what its pages must say of it.
struct StructureTree {
    int root;                                   ///< object number
    std::vector<std::vector<int>> annotations;  ///< per page, its links' object numbers
    // A page's key in the parent tree is its place among the pages.
};

/// The tree of the records: artifacts stand outside it, elements that continue over pages are one, figures have their alternative text
/// and box, head cells their scope, links their annotation with its description, notes an ID.
/// @param page_objects object number of each page
/// @throws std::logic_error for a link to nowhere
StructureTree structure_tree(const TagRecords& records, const std::map<std::string, Destination>& destinations,
                             const std::vector<int>& page_objects, Objects& objects);

}  // namespace wayfolio::output
