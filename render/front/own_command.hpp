#pragma once
#include "front/command.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace wayfolio::front {

/// Writes a text to standard output, whole or not at all.
Command showing(std::string text);
/// Writes the version.
Command showing_version();

/// What is answered without loading the rest of the program, and with it the fifty libraries that draw: the version, the help of all
/// verbs, and the numbers of a document. Nothing where the rest has to answer, as it does whatever is wrong with a command line.
/// @param words as main() has them
/// @param help of all verbs
std::optional<Command> own_command(int count, const char* const* words, std::string_view help);

}  // namespace wayfolio::front
