#include "front/run.hpp"

#include "front/failure.hpp"
#include "front/own_command.hpp"
#include "front/process.hpp"
#include "front/rest_of_program.hpp"

#include <csignal>
#include <cstdlib>

namespace wayfolio::front {

int run(int count, char** words, std::string_view help) {
    end_plainly_without_memory();
    // A limit on the size of files shall end like a full disk, with a message and nothing half-written.
    std::signal(SIGXFSZ, SIG_IGN);
    const Console console = this_console(std::getenv("NO_COLOR"));
    try {
        if (const auto own = own_command(count, words, help)) return static_cast<int>(own->run(console));
        grow_heap_in_large_pages();
        return run_rest_of_program(count, words, console);
    } catch (...) {  // with that of commands/entry.cpp, the program's only catch: everything that did not work ends here
        return static_cast<int>(explain_failure(std::current_exception(), FaultsAs::Messages, console));
    }
}

}  // namespace wayfolio::front
