#pragma once
#include "front/command.hpp"

/// How this process takes memory, and how it ends where there is none left.
namespace wayfolio::front {

/// Says in one line that memory is used up, without needing any, and gives the exit code for it.
ExitCode out_of_memory();

/// Whether a little more memory is not to be had. May be asked in a signal handler: mmap() is a call of the system and needs no heap.
bool memory_is_used_up();

/// Lets this process end by that line and code also where memory runs out in a place from which nothing can be thrown: in a thread, or in
/// a library that ends by a signal then. Other ends by a signal stay what they are.
void end_plainly_without_memory();

/// Lets the heap of this process grow in few large pages. For the program only, never for a library: the heap belongs to its process.
void grow_heap_in_large_pages();

/// Gives each of so many threads a heap of its own, before any begins: they would wait for each other where all they do is draw, each a
/// job of its own. One drawing needs a heap only, which takes less memory.
void allocate_apart(std::size_t threads);

}  // namespace wayfolio::front
