#pragma once

namespace wayfolio::commands {

/// Lets the heap of this process grow in few large pages. For the program only, never for a library: the heap belongs to its process.
void grow_heap_in_large_pages();

}  // namespace wayfolio::commands
