#include "front/rest_of_program.hpp"

#include "front/failure.hpp"
#include "front/process.hpp"
#include "input/module_function.hpp"

#include <fmt/core.h>

namespace wayfolio::front {

namespace {

/// As render/commands/entry.cpp has it.
using RunCommand = int(int count, char** words);

}  // namespace

int run_rest_of_program(int count, char** words, const Console& console) {
    const input::ModuleFunction found = input::module_function("wayfolio-commands", "wayfolio_run_command");
    if (found.function != nullptr) return reinterpret_cast<RunCommand*>(found.function)(count, words);
    if (memory_is_used_up()) return static_cast<int>(out_of_memory());
    return static_cast<int>(
        fail(console, ExitCode::OurFault, fmt::format("a part of this program cannot be loaded; install it again: {}", found.failure)));
}

}  // namespace wayfolio::front
