#include "commands/process.hpp"

#include <csignal>
#include <cstdlib>

using namespace wayfolio::commands;

int main(int argc, char** argv) {
    end_plainly_without_memory();
    grow_heap_in_large_pages();
    // A limit on the size of files shall end like a full disk, with a message and nothing half-written.
    std::signal(SIGXFSZ, SIG_IGN);
    const Console console = this_console(std::getenv("NO_COLOR"));
    Command command;
    try {
        command = read_arguments(argc, argv);
        return static_cast<int>(command.run(console));
    } catch (...) {  // the program's only catch: everything that did not work ends here
        return static_cast<int>(explain_failure(std::current_exception(), command.faults, console));
    }
}
