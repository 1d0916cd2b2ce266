#pragma once
#include "commands/command.hpp"

/// What the program needs of its verbs.
namespace wayfolio::commands {

/// Reads the command line. Asking for help or the version is a command too.
/// @throws UsageError, with the nearest known word where a command or option is misspelt; CLI::ParseError for a malformed value
Command read_arguments(int count, const char* const* words);

/// Says what went wrong, in the way the command asked for, and gives the exit code for it.
ExitCode explain_failure(std::exception_ptr failure, FaultsAs faults, const Console& console);

}  // namespace wayfolio::commands
