#pragma once
#include <string>
#include <string_view>

namespace CLI {
class App;
}

namespace wayfolio::commands {

/// Help of the whole program: examples, commands, exit codes.
std::string program_help(const CLI::App& program);

/// Help of one command: usage, an example (its footer), its options.
std::string command_help(const CLI::App& command);

}  // namespace wayfolio::commands
