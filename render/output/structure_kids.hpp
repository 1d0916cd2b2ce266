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
/// Appends all kids of `from` to `to` and takes `from` out of the tree.
/// @throws std::logic_error when `from` holds marked content of its own, not only elements
void move_kids(Handle from, Handle to);

}  // namespace wayfolio::output
