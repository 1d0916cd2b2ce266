#pragma once
#include "front/console.hpp"

namespace wayfolio::front {

/// Loads the module with all verbs, and lets it answer the command line. @param words as main() has them
/// @returns the exit code, also of a module that cannot be loaded
int run_rest_of_program(int count, char** words, const Console& console);

}  // namespace wayfolio::front
