#pragma once
#include "commands/command.hpp"

namespace wayfolio::commands {

/// Says what went wrong, in the way the command asked for, and gives the exit code for it.
ExitCode explain_failure(std::exception_ptr failure, FaultsAs faults, const Console& console);

}  // namespace wayfolio::commands
