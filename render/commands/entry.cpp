#include "commands/process.hpp"
#include "front/process.hpp"
#include "text/fatal_messages.hpp"

#include <unistd.h>

#include <cstdlib>

using namespace wayfolio::commands;

// What is called by the program in front (front/rest_of_program.cpp). It speaks C: no exception goes out.
extern "C" int wayfolio_run_command(int count, char** words);

extern "C" int wayfolio_run_command(int count, char** words) {
    wayfolio::text::on_memory_used_up([] { _exit(static_cast<int>(wayfolio::front::out_of_memory())); });
    const Console console = wayfolio::front::this_console(std::getenv("NO_COLOR"));
    Command command;
    try {
        command = read_arguments(count, words);
        return static_cast<int>(command.run(console));
    } catch (...) {
        return static_cast<int>(explain_failure(std::current_exception(), command.faults, console));
    }
}
