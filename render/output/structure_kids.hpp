#pragma once
#include "output/qpdf.hpp"

#include <vector>

namespace wayfolio::output {

/// What /K holds, whether it is an array or a single thing: elements, marked-content numbers, object references.
std::vector<Handle> kids_of(Handle element);
/// Only those kids that are structure elements.
std::vector<Handle> element_kids(Handle element);
/// Takes the element out of its parent's /K.
void remove_from_parent(Handle element);
/// Who the marked content `number` of `page` belongs to in the parent tree: an element, or null for an artifact.
void set_parent(QPDF& file, Handle page, int number, Handle parent);
/// Appends all kids of `from` to `to` and takes `from` out of the tree. Marked content keeps its page by a reference of its own.
void move_kids(QPDF& file, Handle from, Handle to);

}  // namespace wayfolio::output
