#pragma once
#include "commands/command.hpp"

/// What main() needs of the program.
namespace wayfolio::commands {

/// Reads the command line. Asking for help or the version is a command too.
/// @throws UsageError, with the nearest known word where a command or option is misspelt; CLI::ParseError for a malformed value
Command read_arguments(int count, const char* const* words);

/// Says what went wrong, in the way the command asked for, and gives the exit code for it.
ExitCode explain_failure(std::exception_ptr failure, FaultsAs faults, const Console& console);

/// Says in one line that memory is used up, without needing any, and gives the exit code for it.
ExitCode out_of_memory();

/// Lets this process end by that line and code also where memory runs out in a place from which nothing can be thrown: in a thread, or in
/// a library that ends by a signal then (GLib does). Other ends by a signal stay what they are.
void end_plainly_without_memory();

/// Lets the heap of this process grow in few large pages. For the program only, never for a library: the heap belongs to its process.
void grow_heap_in_large_pages();

/// Gives each of so many threads a heap of its own, before any begins: they would wait for each other where all they do is draw, each a
/// job of its own. One drawing needs a heap only, which takes less memory.
void allocate_apart(std::size_t threads);

}  // namespace wayfolio::commands
