#pragma once
#include "front/command.hpp"

#include <exception>
#include <string_view>

namespace wayfolio::front {

/// Says `text` as what went wrong, and gives `code` back.
ExitCode fail(const Console& console, ExitCode code, std::string_view text);

/// The same of a command line, with where help is.
ExitCode fail_usage(const Console& console, std::string_view text);

/// Says what went wrong, in the way the command asked for, and gives the exit code for it.
ExitCode explain_failure(std::exception_ptr failure, FaultsAs faults, const Console& console);

}  // namespace wayfolio::front
