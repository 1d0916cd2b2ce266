#pragma once
#include "conformance/checked_file.hpp"

#include <map>
#include <utility>
#include <vector>

namespace wayfolio::conformance {

/// One element of the structure tree, in reading order.
struct Element {
    Handle object;
    std::string type;  ///< without the slash, after the role map
    int parent;        ///< place of the parent, -1 at the root
    std::vector<int> kids;
    bool has_words = false;  ///< it, or what stands in it, shows text or has a text in its place
};

struct Structure {
    std::vector<Element> elements;
    std::map<std::pair<int, int>, std::vector<int>> marks;  ///< elements by page (from 0) and number of marked content
};

/// Reads the tree, and reports elements whose /P is not their parent.
Structure structure_of(const CheckedFile& subject);

/// An entry of an element's attributes of one owner, e.g. ("/Table", "/Scope"); null where there is none.
Handle attribute(const Element& element, const char* owner, const char* key);

void check_tables(const CheckedFile& subject, const Structure& structure);

}  // namespace wayfolio::conformance
