#pragma once
#include <string_view>

namespace wayfolio::front {

/// The whole program: answers the command line, or lets the rest of the program answer it. @param words as main() has them
/// @param help of all verbs, as the rest of the program wrote it when it was built
/// @returns the exit code
int run(int count, char** words, std::string_view help);

}  // namespace wayfolio::front
