#include "commands/arguments.hpp"
#include "commands/failure.hpp"
#include "commands/large_pages.hpp"

#include <cstdlib>

using namespace wayfolio::commands;

int main(int argc, char** argv) {
    grow_heap_in_large_pages();
    const Console console = this_console(std::getenv("NO_COLOR"));
    Command command;
    try {
        command = read_arguments(argc, argv);
        return static_cast<int>(command.run(console));
    } catch (...) {  // the program's only catch: everything that did not work ends here
        return static_cast<int>(explain_failure(std::current_exception(), command.faults, console));
    }
}
