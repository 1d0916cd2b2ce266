#pragma once
#include "commands/command.hpp"

namespace wayfolio::commands {

/// Reads the command line. Asking for help or the version is a command too.
/// @throws UsageError, with the nearest known word where a command or option is misspelt; CLI::ParseError for a malformed value
Command read_arguments(int count, const char* const* words);

}  // namespace wayfolio::commands
