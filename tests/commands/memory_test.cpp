#include "front/process.hpp"
#include "commands/program.hpp"

#include <catch2/catch.hpp>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>

using namespace wayfolio::testing;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

// The address sanitizer reserves more than any limit of these.
#ifndef __SANITIZE_ADDRESS__
TEST_CASE("where memory runs out, one line and an exit code of its own say so, and nothing is half-written", "[slow]") {
    int out_of_memory = 0;
    for (int kilobytes = 60'000; kilobytes <= 420'000; kilobytes += 30'000)
        for (const std::string& command : {"report " + short_axis + " -o ", "record " + short_axis + " -o ",
                                           "figure " + short_axis + " -o ", "certificate " + short_axis + " -o "}) {
            const TemporaryFolder folder;
            CAPTURE(kilobytes, command);
            const Ran ran = run("(ulimit -v " + std::to_string(kilobytes) + "; exec " + program + " " + command + folder / "out" + ")");
            CAPTURE(ran.err);
            if (ran.err.find("error while loading shared libraries") != std::string::npos) continue;  // the program has not begun
            if (ran.code == 0) continue;
            CHECK(ran.code == 71);
            CHECK_THAT(ran.err, Contains("not enough memory"));
            ++out_of_memory;
            // Two libraries tell by themselves what they had no memory for, in pieces between which the line may come.
            const bool others = ran.err.find("Fontconfig ") != std::string::npos || ran.err.find("GLib (") != std::string::npos;
            std::istringstream lines(others ? std::string() : ran.err);
            for (std::string line; std::getline(lines, line);) {
                CAPTURE(line);
                CHECK((line.starts_with("wayfolio: ") || line.starts_with("warning: ")));
            }
            // At most a hidden part, which the next run removes: GLib leaves no way back through the program.
            for (const auto& entry : fs::recursive_directory_iterator(folder.path()))
                CHECK((entry.path() == folder.path() / "out" || entry.path().string().find("/.figures.part-") != std::string::npos));
        }
    CHECK(out_of_memory > 5);
}

namespace {

/// Takes a page of the stack for each further call.
int deep(int calls) {
    volatile char page[4096] = {};
    return calls == 0 ? page[0] : deep(calls - 1) + page[calls % 4096];
}

/// The status with which a process ends whose stack needs more pages than the limit of its memory has.
int status_where_the_stack_cannot_grow() {
    const pid_t child = fork();
    if (child == 0) {
        wayfolio::front::end_plainly_without_memory();
        const rlimit none{1, 1};
        setrlimit(RLIMIT_AS, &none);
        _exit(deep(1000));
    }
    int status = 0;
    waitpid(child, &status, 0);
    return status;
}

}  // namespace

TEST_CASE("a stack that cannot grow, where memory runs out, ends by the line and the exit code, too") {
    const int status = status_where_the_stack_cannot_grow();
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 71);
}
#endif
